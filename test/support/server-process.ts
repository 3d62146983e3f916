import { startServer } from '../../src/server/server.ts'

/** Runs the server as a process of its own, which a test can kill; tells its port on the first line. */
const [folder = '', page = ''] = process.argv.slice(2)
const server = await startServer({ folder, page, port: 0, version: '0', firstSupplies: () => [] })
console.log(server.port)
