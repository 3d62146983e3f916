// Keeps the page in the browser, so that it opens with the network cut. The newest page is taken whenever it is there.
const shelf = 'gapwright-page'
const page = 'index.html'

/** A copy without the mark of a redirect, which a browser would not show as a page. */
const plain = (response) =>
  new Response(response.body, { status: response.status, headers: response.headers })

const keep = async (response) => {
  const kept = plain(response)
  const answer = kept.clone()
  await (await caches.open(shelf)).put(page, kept)
  return answer
}

const newest = async () => {
  const response = await fetch(page, { cache: 'no-cache' })
  if (!response.ok) throw new Error(`the server answered ${response.status}`)
  return keep(response)
}

self.addEventListener('install', (event) => event.waitUntil(newest().then(() => self.skipWaiting())))
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()))
self.addEventListener('fetch', (event) => {
  if (event.request.mode !== 'navigate') return
  event.respondWith(newest().catch(async () => (await caches.match(page)) ?? Response.error()))
})
