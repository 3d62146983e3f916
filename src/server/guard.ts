import type { IncomingMessage } from 'node:http'

/** Sent with every answer: the page runs only what this server sends, and nobody frames or sniffs it. */
export const securityHeaders: Record<string, string> = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
}

/**
 * Why a request is refused, or null when it may pass. The server listens on loopback, but any page in the same
 * browser can send requests there, and a hostile name can be made to point there: so the Host must be loopback by
 * name, and a request that says where it comes from must come from this server's own page.
 */
export function refusal(request: IncomingMessage, port: number): string | null {
  const names = ['127.0.0.1', 'localhost', '[::1]']
  const hosts = names.map((n) => `${n}:${port}`)
  const host = request.headers.host?.toLowerCase() ?? ''
  if (!hosts.includes(host) && !(port === 80 && names.includes(host)))
    return 'this server answers only to localhost'
  const origin = request.headers.origin
  if (origin !== undefined && origin.toLowerCase() !== `http://${host}`)
    return 'only the page of this server may use it'
  const site = request.headers['sec-fetch-site']
  const opensPage = request.headers['sec-fetch-mode'] === 'navigate' && request.method === 'GET'
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !opensPage)
    return 'only the page of this server may use it'
  return null
}
