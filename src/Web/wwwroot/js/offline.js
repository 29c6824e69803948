// Work goes on without a connection: pages that are worked from are kept by sw.js, ticks at the table are kept here and sent later.

const said = document.querySelector('[data-connection]');

if ('serviceWorker' in navigator && window.isSecureContext) {
  navigator.serviceWorker.register('/sw.js').then(() => navigator.serviceWorker.ready).then(({ active }) => {
    // A device that others come in on keeps none of her pages.
    if (/^\/account\/(sign|join|recover|first)/.test(location.pathname)) active.postMessage({ forget: true });
    const keep = [...document.querySelectorAll('[data-offline]')].flatMap((part) => part.dataset.offline.split(' '));
    const things = performance.getEntriesByType('resource').map((entry) => new URL(entry.name))
      .filter((address) => address.origin === location.origin && /^\/(css|js|fonts|drawings)\//.test(address.pathname)).map(String);
    if (keep.length > 0) active.postMessage({ keep, things });
  }).catch(() => { /* not allowed here: all works as before, with a connection */ });
}

async function answers() {
  try { return (await fetch('/health/live', { cache: 'no-store', signal: AbortSignal.timeout(8000) })).ok; } catch { return false; }
}

// Only where work goes on without it is it worth telling.
async function look() {
  const isThere = await answers();
  said.hidden = isThere;
  said.textContent = isThere ? '' : t('The archive does not answer. This page is as it was last seen on this device. What you do here is kept and sent when it answers.');
  if (!isThere) setTimeout(look, 4000);
  else await sendTicks().catch(() => setTimeout(look, 4000));
}

// Ticks made without a connection, by worksheet: { step: done }.
const name = (sheet) => `ticks ${sheet}`;
const waiting = (sheet) => JSON.parse(localStorage.getItem(name(sheet)) ?? '{}');

// Each tick is a decision about its own step, so ticks made elsewhere meanwhile stay.
async function sendTicks() {
  for (const key of Object.keys(localStorage).filter((k) => k.startsWith('ticks '))) {
    const sheet = key.slice('ticks '.length);
    const ticks = waiting(sheet);
    const now = await fetch(`/api/worksheets/${sheet}/ticks`);
    if (!now.ok) {
      if (now.status === 404) localStorage.removeItem(key);
      continue;
    }
    const done = new Set((await now.json()).done);
    const other = Object.entries(ticks).filter(([step, isDone]) => done.has(Number(step)) !== isDone);
    for (const [step, isDone] of Object.entries(ticks)) isDone ? done.add(Number(step)) : done.delete(Number(step));
    const answer = await fetch(`/api/worksheets/${sheet}/ticks`, { method: 'PUT', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ done: [...done] }) });
    if (!answer.ok) continue;
    localStorage.removeItem(key);
    said.hidden = false;
    said.textContent = other.length === 0 ? t('Your ticks were here already.') : t('The archive answers again. Sent from this device: step {0}.', other.map(([step]) => step).join(', '));
  }
}

const table = document.querySelector('form[data-at-table]');
if (table) {
  const sheet = table.dataset.atTable;
  const address = new URL(location.href);
  const unsent = address.searchParams.get('unsent')?.split(':');
  if (unsent) {
    localStorage.setItem(name(sheet), JSON.stringify({ ...waiting(sheet), [unsent[0]]: unsent[1] === 'true' }));
    address.searchParams.delete('unsent');
    history.replaceState(null, '', address);
  }
  const kept = waiting(sheet)[table.elements.step.value];
  if (kept !== undefined) {
    const [step, steps] = [table.elements.step.value, document.querySelector('.at-table progress').max];
    document.getElementById('step').textContent = kept ? t('Step {0} of {1}, done, not sent yet', step, steps) : t('Step {0} of {1}, not sent yet', step, steps);
  }
}

if (document.querySelector('[data-offline]') || Object.keys(localStorage).some((k) => k.startsWith('ticks '))) look();
window.addEventListener('online', look);
window.addEventListener('offline', look);
