import { type IncomingHttpHeaders, request } from 'node:http'

export type RawAnswer = {
  status: number
  headers: IncomingHttpHeaders
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every shape
  body: any
  text: string
}

/** One request with exactly these headers and this path, as no browser or fetch would let one write it. */
export function rawRequest(
  port: number,
  method: string,
  path: string,
  headers: Record<string, string> = {},
  body?: string | Buffer,
): Promise<RawAnswer> {
  return new Promise((resolve, reject) => {
    const sent = request(
      { host: '127.0.0.1', port, method, path, headers, setHost: headers.Host === undefined },
      (answer) => {
        const chunks: Buffer[] = []
        answer.on('data', (chunk) => chunks.push(chunk))
        answer.on('end', () => {
          const text = Buffer.concat(chunks).toString('utf8')
          const isJson = answer.headers['content-type']?.startsWith('application/json') && text !== ''
          resolve({
            status: answer.statusCode ?? 0,
            headers: answer.headers,
            text,
            body: isJson ? JSON.parse(text) : null,
          })
        })
      },
    )
    sent.on('error', reject)
    sent.end(body)
  })
}
