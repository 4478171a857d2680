// How the page is built: for browsers of old tablets, with the service worker as a file of its own at the root.
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** Puts the script that asks for the first data before everything else in the markup. */
function earlyScriptFirst(): Plugin {
  return {
    name: 'early-script-first',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler(html, { bundle }) {
        const early = Object.values(bundle ?? {}).find((c) => c.type === 'chunk' && c.name === 'early');
        if (early?.type !== 'chunk') throw new Error('the build has no early script');
        if (early.imports.length > 0 || early.exports.length > 0)
          throw new Error('the early script must stand alone');
        return {
          html,
          tags: [{ tag: 'script', attrs: { src: `/${early.fileName}` }, injectTo: 'head-prepend' }],
        };
      },
    },
  };
}

export default defineConfig({
  plugins: [earlyScriptFirst()],
  build: {
    target: ['es2020', 'chrome80', 'safari14', 'firefox78'],
    cssTarget: ['chrome80', 'safari14', 'firefox78'],
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      input: { page: 'index.html', early: 'src/early.ts', sw: 'src/worker/service_worker.ts' },
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
