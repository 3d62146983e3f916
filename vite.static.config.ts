import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'
import { inlineWorkers, onePage } from './scripts/one-page.mjs'

/** The page as one HTML file that needs nothing beside it: opened from a disk or from any web server. */
export default defineConfig({
  root: fileURLToPath(new URL('./src/app', import.meta.url)),
  base: './',
  mode: 'static',
  publicDir: 'static',
  plugins: [inlineWorkers(), react(), onePage()],
  worker: { format: 'iife' },
  build: {
    outDir: '../../dist/static',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: Number.MAX_SAFE_INTEGER,
    cssCodeSplit: false,
    modulePreload: false,
    reportCompressedSize: false,
    chunkSizeWarningLimit: 10_000,
    rollupOptions: { output: { codeSplitting: false }, checks: { pluginTimings: false } },
  },
})
