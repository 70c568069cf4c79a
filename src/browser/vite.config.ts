/** How the page is built: into dist/browser, with the list of its files in the service worker. */
import { defineConfig, type Plugin } from 'vite';

/** Writes the names of all built files into the service worker, which keeps them on the device. */
function listFilesToKeep(): Plugin {
  return {
    name: 'list-files-to-keep',
    enforce: 'post',
    generateBundle(_, bundle) {
      const worker = bundle['service-worker.js'];
      if (worker?.type !== 'chunk') throw new Error('The service worker was not built.');
      const files = Object.keys(bundle).filter((name) => name.startsWith('assets/'));
      const list = JSON.stringify(JSON.stringify(['', ...files, 'beam.svg', 'app.webmanifest']));
      worker.code = worker.code.replace(/(["'`])FILES_TO_KEEP\1/, list);
    },
  };
}

export default defineConfig({
  plugins: [listFilesToKeep()],
  build: {
    outDir: '../../dist/browser',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    reportCompressedSize: false,
    rolldownOptions: {
      input: {
        index: new URL('index.html', import.meta.url).pathname,
        trust: new URL('trust.html', import.meta.url).pathname,
        'service-worker': new URL('shell/service-worker.ts', import.meta.url).pathname,
      },
      output: {
        entryFileNames: ({ name }) =>
          name === 'service-worker' ? 'service-worker.js' : 'assets/[name]-[hash].js',
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4180' } },
});
