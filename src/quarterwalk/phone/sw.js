/**
 * The service worker: keeps this page's own files, so that it opens without a signal.
 * A later version waits until the page says that no walk is open.
 */
importScripts('files.js');

const { version, files } = self.QUARTERWALK_FILES;
const CACHE = `quarterwalk-${version}`;
const home = new URL('./', self.location).href;
const addressOf = (name) => new URL(name === 'index.html' ? './' : name, home).href;

const hex = (bytes) => [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

/** Take a file only as it was listed: no half of one version with half of another. */
async function kept(cache, name, hash) {
  const response = await fetch(addressOf(name), { cache: 'no-cache', credentials: 'omit' });
  if (!response.ok) throw new Error(`${name} can't be had: ${response.status}`);
  const bytes = await response.clone().arrayBuffer();
  if (hex(await crypto.subtle.digest('SHA-256', bytes)) !== hash) throw new Error(`${name} is of another version`);
  await cache.put(addressOf(name), response);
}

/** The list itself, as this worker has it. */
const listing = () =>
  new Response(`self.QUARTERWALK_FILES = ${JSON.stringify({ version, files })};`, {
    headers: { 'Content-Type': 'text/javascript' },
  });

async function keepAll() {
  const cache = await caches.open(CACHE);
  await Promise.all(Object.entries(files).map(([name, hash]) => kept(cache, name, hash)));
  await cache.put(addressOf('files.js'), listing());
}

async function dropOthers() {
  const names = await caches.keys();
  const ours = names.filter((name) => name.startsWith('quarterwalk-') && name !== CACHE);
  await Promise.all(ours.map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function fromCache(address, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(address)) ?? fetch(request);
}

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(dropOthers()));
self.addEventListener('message', ({ data }) => {
  if (data === 'take-over') self.skipWaiting();
});
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || !url.href.startsWith(home)) return;
  const name = url.href.slice(home.length).split(/[?#]/)[0];
  if (name === '' || name === 'files.js' || name in files) {
    event.respondWith(fromCache(addressOf(name || 'index.html'), request));
  }
});
