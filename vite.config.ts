import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/** The page that the server sends. */
export default defineConfig({
  root: fileURLToPath(new URL('./src/app', import.meta.url)),
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: '../../dist/page',
    emptyOutDir: true,
    target: 'es2022',
    manifest: true,
    /** The page's content policy takes fonts and images from files only. */
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
})
