import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { defineConfig } from 'vitest/config';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// The server of the program while the page is worked on.
const PROGRAM = 'http://127.0.0.1:7418';

const CONTENT_POLICY =
  "default-src 'self'; img-src 'self' blob: data:; style-src 'self' 'unsafe-inline'";

export default defineConfig(({ mode }) => {
  // The stories are built beside the page, never into it.
  const stories = mode === 'stories';
  return {
    plugins: [svelte(), svelteTesting()],
    resolve: { alias: { $lib: here('./src/lib') } },
    build: {
      outDir: stories ? 'dist-stories' : 'dist',
      emptyOutDir: true,
      target: 'es2022',
      // A strict content policy: nothing inline, fonts and pictures as files.
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
      // A tablet beside the splicer has a page of its own.
      rollupOptions: {
        input: stories ? here('./stories.html') : [here('./index.html'), here('./tablet.html')],
      },
    },
    server: { host: '127.0.0.1', proxy: { '/api': PROGRAM } },
    // The built page is previewed under the policy that the program sends.
    preview: { host: '127.0.0.1', headers: { 'Content-Security-Policy': CONTENT_POLICY } },
    test: {
      environment: 'jsdom',
      include: ['src/**/*.test.ts', 'bench/**/*.test.ts'],
      setupFiles: ['./src/look/jsdom.setup.ts'],
    },
  };
});
