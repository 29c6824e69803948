// Forms with data-draft are kept as she types, on the server and, until it has answered, in this browser too.
// Without script the buttons "Keep as a draft" and "Undo" do the same by a press.

import { takeUp } from './uploads.js';

const pause = 800;
const patience = 3000;
const presses = ['add', 'remove', 'use', 'show', 'draft'];
// Whose page it is, in an archive with accounts.
const who = document.body.dataset.who;

function watch(form) {
  const address = `/api/drafts/${form.dataset.draft}`;
  // What one person typed is not brought into another's draft.
  const copy = ['draft', who, form.dataset.draft].filter(Boolean).join(' ');
  const undo = form.querySelector('button[name=draft][value=undo]');
  const said = form.querySelector('[data-draft-said]');
  let typed = 0, kept = 0, timer, passing = false, refused = 0, wanted = null, rest = {}, turn = Promise.resolve(true);
  const say = (words) => { if (said.textContent !== words) said.textContent = words; };
  form.querySelector('button[name=draft][value=keep]').hidden = true;

  // What stands in the form, as a post would send it; files go with the save only.
  const fields = () => JSON.stringify({ ...rest, ...Object.fromEntries([...new FormData(form)]
    .filter(([name, value]) => typeof value === 'string' && !name.startsWith('__') && !presses.includes(name))) });

  // Whoever has signed in meanwhile may be somebody else.
  async function isHers() {
    const answer = await fetch('/api/account', { signal: AbortSignal.timeout(15000) });
    return answer.ok && (await answer.json()).id === who;
  }

  // True when it is kept, false when it is too much for a draft; throws when it is to be tried again.
  async function put(body, leaving) {
    if (refused && !await isHers()) throw new Error(refused);
    const answer = await fetch(address, {
      method: 'PUT', headers: { 'Content-Type': 'application/json' }, body,
      // A page that is left may send only so much.
      keepalive: leaving && body.length < 30000, signal: AbortSignal.timeout(15000),
    });
    refused = [401, 403].includes(answer.status) ? answer.status : 0;
    if (refused || [408, 429].includes(answer.status) || answer.status >= 500) throw new Error(answer.status);
    if (local(copy) === body) forget(copy);
    return answer.ok;
  }

  // One at a time, so that what is older never comes in last. True once all that was typed is acknowledged.
  function keep(leaving = false) {
    clearTimeout(timer);
    return turn = turn.then(async () => {
      if (kept === typed) return true;
      const [now, body] = [typed, fields()];
      try {
        if (await put(body, leaving)) {
          undo.hidden = false;
          say(t('Kept as a draft.'));
        } else {
          say(t('This is more than a draft can hold. Save it.'));
        }
        kept = now;
        if (wanted && kept === typed) {
          // It was pressed while there was no answer.
          const button = wanted;
          wanted = null;
          setTimeout(() => form.requestSubmit(button));
        } else if (Object.keys(rest).length > 0) {
          // Rows that a page kept for later did not have: shown from the draft.
          location.replace(location.pathname + location.search);
        }
        return true;
      } catch {
        tryAgain();
        return false;
      }
    });
  }

  function tryAgain() {
    say(refused
      ? t('You are not signed in as somebody who may write here. What you typed is kept in this browser; sign in again in another window, and it is tried again.')
      : t('The archive does not answer. What you typed is kept in this browser, and it is tried again.'));
    // A role that is too little is written into the book each time: it is asked for again only when she does something.
    if (refused !== 403) timer = setTimeout(keep, patience);
  }

  form.addEventListener('input', (event) => {
    if (event.target.type === 'file') return;
    typed++;
    wanted = null;
    remember(copy, fields());
    clearTimeout(timer);
    timer = setTimeout(keep, pause);
  });
  const left = () => { if (!passing) keep(true); };
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'hidden') left(); });
  window.addEventListener('pagehide', left);
  window.addEventListener('pageshow', () => { passing = false; });
  window.addEventListener('online', () => keep());

  // Before anything is sent the draft is: a save that gets lost on the way loses nothing, and without an answer the form stays.
  form.addEventListener('submit', async (event) => {
    const files = [...form.querySelectorAll('input[type=file]')].filter((input) => input.files.length > 0);
    if (passing || (kept === typed && files.length === 0)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const button = event.submitter;
    if (!await keep()) {
      wanted = button;
      say(refused
        ? t('Not saved yet: you are not signed in as somebody who may write here. What you typed is kept in this browser, and is saved once you have signed in again in another window, if this page stays open; else it is here when you open it again.')
        : t('Not saved yet: the archive does not answer. What you typed is kept in this browser, and is saved as soon as it answers, if this page stays open; else it is here when you open it again.'));
    } else if (files.length > 0) {
      say(t('The pictures are on their way …'));
      if (form.settleUploads && !await form.settleUploads()) {
        say(t('Not saved yet: a picture was refused. Leave it out or choose another, and press again.'));
        return;
      }
      if (!await keep()) return;
      await send(button, files);
    } else {
      passing = true;
      form.requestSubmit(button);
    }
  }, true);

  // Pictures chosen would be gone with the page: they are sent from here, and stay chosen when the answer is no.
  async function send(button, files) {
    say(t('The pictures are on their way …'));
    try {
      const body = new FormData(form, button);
      // What came in parts is here already and waits.
      for (const input of files) if (form.uploaded?.(input)) body.delete(input.name);
      const answer = await fetch(form.action, { method: 'POST', body, headers: { Accept: 'text/html' } });
      if (answer.redirected) {
        location.assign(answer.url);
        return;
      }
      const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
      document.querySelector('main').replaceWith(document.adoptNode(page.querySelector('main')));
      for (const input of files) document.getElementById(input.id)?.replaceWith(input);
      document.querySelector('[data-lost]')?.remove();
      document.querySelectorAll('form[data-upload]').forEach(takeUp);
      document.querySelectorAll('form[data-draft]').forEach(watch);
      document.querySelector('[data-errors]')?.focus();
    } catch {
      say(t('Not saved yet: the archive does not answer. What you typed and the pictures are still here; press again in a moment.'));
    }
  }

  // What this browser kept and the server never acknowledged: brought in now, and shown from there.
  async function bringIn(body) {
    try {
      if (await put(body, false) && typed === 0) location.replace(location.pathname + location.search);
    } catch {
      if (typed === 0) fill(JSON.parse(body));
    }
  }

  // A page kept for later shows what was typed since, and goes on from there.
  function fill(values) {
    for (const [name, value] of Object.entries(values)) {
      const found = form.elements.namedItem(name);
      if (!found) rest[name] = value;
      for (const field of found instanceof RadioNodeList ? found : found ? [found] : []) {
        if (field.type === 'checkbox' || field.type === 'radio') field.checked = field.value === value;
        else if (field.type !== 'file') field.value = value;
      }
    }
    typed++;
    tryAgain();
  }
  const unsent = local(copy);
  if (unsent) bringIn(unsent);
}

// A browser that keeps nothing is no reason to stop.
function local(name) { try { return localStorage.getItem(name); } catch { return null; } }
function remember(name, text) { try { localStorage.setItem(name, text); } catch { /* full or not allowed */ } }
function forget(name) { try { localStorage.removeItem(name); } catch { /* as above */ } }

document.querySelectorAll('form[data-draft]').forEach(watch);
