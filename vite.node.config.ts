import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'

/** What runs under Node: the library, the drawings, the server and the command line. */
export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  build: {
    ssr: true,
    outDir: 'dist/node',
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    reportCompressedSize: false,
    rollupOptions: {
      input: {
        engine: 'src/engine/index.ts',
        drawing: 'src/drawing/index.ts',
        server: 'src/server/server.ts',
        cli: 'src/cli/main.ts',
      },
      output: { entryFileNames: '[name].js', chunkFileNames: 'chunks/[name]-[hash].js' },
      external: [/^node:/, 'zod', 'sirv'],
    },
  },
})
