import type { IncomingMessage, ServerResponse } from 'node:http'
import type { ApiErrorCode, ApiFailure } from './api-types.ts'

const statusOf: Record<ApiErrorCode, number> = {
  'bad-request': 400,
  forbidden: 403,
  'not-found': 404,
  'method-not-allowed': 405,
  conflict: 409,
  'too-large': 413,
  'unsupported-type': 415,
  invalid: 422,
  'precondition-required': 428,
  disk: 500,
}

/** An answer before it is sent: kept apart from the socket so that routes are plain functions. */
export type Reply = { status: number; headers?: Record<string, string>; body: unknown }

export const answer = (body: object, tag?: string, status = 200): Reply => ({
  status,
  body,
  ...(tag === undefined ? {} : { headers: { ETag: `"${tag}"` } }),
})

export function failure(
  code: ApiErrorCode,
  message: string,
  more: Omit<ApiFailure['error'], 'code' | 'message'> = {},
  headers: Record<string, string> = {},
): Reply {
  const body: ApiFailure = { error: { code, message, ...more } }
  return { status: statusOf[code], headers, body }
}

export function send(response: ServerResponse, reply: Reply, withBody: boolean): void {
  const text = Buffer.from(JSON.stringify(reply.body))
  response.writeHead(reply.status, {
    ...reply.headers,
    'Content-Type': 'application/json; charset=utf-8',
    'Content-Length': text.length,
    'Cache-Control': 'no-store',
  })
  response.end(withBody ? text : undefined)
}

/** The body of a request, or null when it is over the limit; the rest is then left unread. */
export async function readBody(request: IncomingMessage, limit: number): Promise<Buffer | null> {
  if (Number(request.headers['content-length'] ?? 0) > limit) return null
  const chunks: Buffer[] = []
  let length = 0
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length
    if (length > limit) return null
    chunks.push(chunk)
  }
  return Buffer.concat(chunks)
}
