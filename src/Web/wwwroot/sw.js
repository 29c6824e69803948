// Keeps the pages that are worked from away from the network: a new piece, a worksheet, a worksheet at the table.
// The network is always asked first; what it last answered is shown when it does not answer. Nothing is sent later from here.

const pages = 'pages', things = 'things', none = '/offline';
const drawn = /^\/(css|js|fonts|drawings)\//;
const worked = [/^\/pieces\/new$/, /^\/worksheets\/[0-9a-f-]{36}(\/at-the-table)?$/];
const atTable = /^\/worksheets\/[0-9a-f-]{36}\/at-the-table$/;
const always = [none, '/css/tokens.css', '/css/base.css', '/css/parts.css', '/drawings/mark.svg', '/drawings/hemstitch.svg'];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(things).then((cache) => cache.addAll(always)).then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', (event) => {
  const address = new URL(event.request.url);
  if (event.request.method === 'POST' && event.request.mode === 'navigate' && atTable.test(address.pathname)) event.respondWith(tick(event.request, address));
  if (event.request.method !== 'GET' || address.origin !== location.origin) return;
  if (event.request.mode === 'navigate') event.respondWith(page(event.request, address));
  else if (drawn.test(address.pathname)) event.respondWith(thing(event.request));
});

// A page names the others that are worked from with it: all the steps of a worksheet.
// What it is drawn with was brought before this script was there.
self.addEventListener('message', (event) => {
  if (event.data.keep) event.waitUntil(Promise.allSettled([...event.data.keep.map(take), ...event.data.things.map((address) => thing(new Request(address)))]));
  if (event.data.forget) event.waitUntil(caches.delete(pages));
});

async function take(address) {
  const answer = await fetch(address, { headers: { Accept: 'text/html' } });
  if (answer.ok && !answer.redirected) await (await caches.open(pages)).put(address, answer);
}

// A tick that does not get through is handed to the next step's page, which keeps and sends it.
async function tick(request, address) {
  const copy = request.clone();
  try {
    return await fetch(request);
  } catch {
    const form = await copy.formData();
    const next = form.get('done') === 'true' ? form.get('next') : form.get('step');
    return Response.redirect(`${address.pathname}?step=${next}&unsent=${form.get('step')}:${form.get('done')}`, 303);
  }
}

async function page(request, address) {
  address.searchParams.delete('unsent');
  try {
    const answer = await fetch(request);
    if (answer.ok && !answer.redirected && worked.some((way) => way.test(address.pathname))) {
      await (await caches.open(pages)).put(address.href, answer.clone());
    }
    return answer;
  } catch {
    const cache = await caches.open(pages);
    const kept = (which) => cache.match(which, { ignoreVary: true });
    return await kept(address.href) ?? (address.pathname === '/pieces/new' ? await kept(address.pathname) : undefined) ?? await caches.match(none);
  }
}

// What has its digest in its name never changes; all else is asked for first.
async function thing(request) {
  const cache = await caches.open(things);
  const kept = await cache.match(request);
  if (kept && /immutable/.test(kept.headers.get('Cache-Control') ?? '')) return kept;
  try {
    const answer = await fetch(request);
    if (answer.ok) await cache.put(request, answer.clone());
    return answer;
  } catch (failure) {
    if (kept) return kept;
    throw failure;
  }
}
