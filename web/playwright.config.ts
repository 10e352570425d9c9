import { execFileSync } from 'node:child_process';
import { defineConfig } from '@playwright/test';

/** The browser of the system: CHROMIUM, or `chromium` on the path. Nothing is downloaded. */
function chromium(): string {
  const named = process.env['CHROMIUM'];
  if (named) return named;
  try {
    return execFileSync('sh', ['-c', 'command -v chromium'], { encoding: 'utf8' }).trim();
  } catch {
    throw new Error('no Chromium found: install it, or name it in the variable CHROMIUM');
  }
}

const executablePath = chromium();
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
const NO_NAMES = '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1';

const PORT = Number(process.env['STORIES_PORT'] ?? 5187);

export default defineConfig({
  testDir: './e2e',
  outputDir: './test-results',
  fullyParallel: true,
  workers: 2,
  reporter: [['list']],
  use: {
    baseURL: `http://127.0.0.1:${PORT}`,
    viewport: { width: 1440, height: 900 },
    launchOptions: { executablePath, args: ARGS },
  },
  projects: [
    { name: 'stories', testMatch: /(stories|controls)\.spec\.ts/ },
    {
      // The real program, and no name on earth but this machine.
      name: 'film',
      testMatch:
        /(story|keyboard|windows|killed|looks|states|breaks|cutting|screening|in_the_hand|bench|tablet|class_roster|phone|camera|script|titles|dubbing|run_mix|hearing|recording|microphone|light|reading_back|finish|box|programme|family)\.spec\.ts/,
      timeout: 90_000,
      expect: { timeout: 15_000 },
      use: {
        launchOptions: { executablePath, args: [...ARGS, NO_NAMES] },
        screenshot: 'only-on-failure',
      },
    },
  ],
  webServer: {
    command: `npx vite preview --mode stories --port ${PORT} --strictPort`,
    url: `http://127.0.0.1:${PORT}/stories.html`,
    reuseExistingServer: false,
  },
});
