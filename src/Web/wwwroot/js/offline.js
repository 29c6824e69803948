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
let again;
async function look() {
  clearTimeout(again);
  const isThere = await answers();
  said.hidden = isThere;
  said.textContent = isThere ? '' : t('The archive does not answer. This page is as it was last seen on this device. What you do here is kept and sent when it answers.');
  const later = () => { again = setTimeout(look, 4000); };
  if (!isThere) later();
  else await sendTicks().catch(later);
}

// Ticks that are not sent yet, by worksheet: { step: done }.
const name = (sheet) => `ticks ${sheet}`;
const waiting = (sheet) => JSON.parse(localStorage.getItem(name(sheet)) ?? '{}');
function wait(sheet, ticks) {
  if (Object.keys(ticks).length > 0) localStorage.setItem(name(sheet), JSON.stringify(ticks));
  else localStorage.removeItem(name(sheet));
}

// Each tick is a decision about its own step, so ticks made elsewhere meanwhile stay. Throws when it is to be tried again.
async function send(sheet) {
  const ticks = waiting(sheet);
  const steps = (isDone) => Object.keys(ticks).filter((step) => ticks[step] === isDone).map(Number);
  const answer = await fetch(`/api/worksheets/${sheet}/ticks`, {
    method: 'PATCH', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ done: steps(true), undone: steps(false) }),
  });
  if ([408, 429].includes(answer.status) || answer.status >= 500) throw new Error(answer.status);
  // What was ticked otherwise while it was on its way still waits; who has to sign in first still has hers.
  if (![401, 403].includes(answer.status)) wait(sheet, Object.fromEntries(Object.entries(waiting(sheet)).filter(([step, isDone]) => ticks[step] !== isDone)));
  return answer;
}

async function sendTicks() {
  for (const key of Object.keys(localStorage).filter((k) => k.startsWith('ticks '))) {
    const sheet = key.slice('ticks '.length);
    const ticks = Object.entries(waiting(sheet));
    const now = await fetch(`/api/worksheets/${sheet}/ticks`);
    const done = new Set(now.ok ? (await now.json()).done : []);
    if (!(await send(sheet)).ok) continue;
    const other = ticks.filter(([step, isDone]) => done.has(Number(step)) !== isDone);
    for (const kept of document.querySelectorAll(`form[data-ticks='${sheet}'] [data-kept]`)) kept.textContent = t('Kept.');
    said.hidden = false;
    said.textContent = other.length === 0 ? t('Your ticks were here already.') : t('The archive answers again. Sent from this device: step {0}.', other.map(([step]) => step).join(', '));
  }
}

// On the whole worksheet a tick is sent as it is made; without script a button keeps them all.
for (const form of document.querySelectorAll('form[data-ticks]')) {
  const sheet = form.dataset.ticks;
  const [button, kept] = [form.querySelector('button'), form.querySelector('[data-kept]')];
  button.hidden = true;
  for (const box of form.querySelectorAll('input[type=checkbox]')) box.checked = waiting(sheet)[box.value] ?? box.checked;
  let last = Promise.resolve();
  form.addEventListener('change', ({ target }) => {
    wait(sheet, { ...waiting(sheet), [target.value]: target.checked });
    last = last.then(async () => {
      try {
        const isKept = (await send(sheet)).ok;
        button.hidden = isKept;
        kept.textContent = isKept ? t('Kept.') : t('Not sent: you are not signed in as somebody who may tick here. The tick is kept on this device; sign in again, then open this page once more.');
      } catch {
        kept.textContent = t('Not sent yet: the archive does not answer. The tick is kept on this device and sent when it does.');
        look();
      }
    });
  });
}

const table = document.querySelector('form[data-at-table]');
if (table) {
  const sheet = table.dataset.atTable;
  const address = new URL(location.href);
  const unsent = address.searchParams.get('unsent')?.split(':');
  if (unsent) {
    wait(sheet, { ...waiting(sheet), [unsent[0]]: unsent[1] === 'true' });
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
