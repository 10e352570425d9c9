// Builds the benchmark for Node, and apart from it what is laid into the page.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: here('..'),
  publicDir: false,
  build: {
    ssr: true,
    outDir: 'dist-bench',
    emptyOutDir: true,
    target: 'node18',
    minify: false,
    rollupOptions: {
      input: { page_bench: here('page_bench.ts'), stopwatch: here('stopwatch.ts') },
    },
  },
});
