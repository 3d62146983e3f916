import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    maxWorkers: '100%',
    projects: [
      {
        test: {
          name: 'unit',
          include: [
            'src/**/*.test.{ts,tsx}',
            'test/{cli,drawing,examples,files,needs,property,reference,scripts,server}/**/*.test.ts',
          ],
          environment: 'node',
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          environment: 'node',
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
})
