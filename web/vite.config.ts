// How the page is built: for browsers of old tablets, with the service worker as a file of its own at the root.
import { defineConfig } from 'vitest/config';

export default defineConfig({
  build: {
    target: ['es2020', 'chrome80', 'safari14', 'firefox78'],
    cssTarget: ['chrome80', 'safari14', 'firefox78'],
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      input: { page: 'index.html', sw: 'src/worker/service_worker.ts' },
      output: {
        entryFileNames: (chunk) => (chunk.name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js'),
        chunkFileNames: 'assets/[name]-[hash].js',
        assetFileNames: 'assets/[name]-[hash][extname]',
      },
    },
  },
  esbuild: { jsx: 'automatic', jsxImportSource: 'preact', legalComments: 'none' },
  server: { proxy: { '/api': 'http://127.0.0.1:8765' } },
  test: { testTimeout: 60_000, include: ['src/**/*.test.ts', 'test/**/*.test.ts'] },
});
