// Pictures are sent in parts (tus 1.0.0), each file with its own bar, and go on by themselves after a lost connection.
// A form with data-upload="{garment}" sends them when it is submitted, one with data-upload="" as soon as they are chosen,
// to wait for the new piece. Without script the form carries the files itself.

const part = 1024 * 1024;
const atOnce = 2;
const patience = 2000;
const begun = new WeakMap();

const base64 = (text) => btoa(String.fromCharCode(...new TextEncoder().encode(text)));
const wait = (ms) => new Promise((go) => { setTimeout(go, ms); window.addEventListener('online', go, { once: true }); });

// A browser that keeps nothing is no reason to stop: then a closed page begins anew.
const kept = (key) => { try { return localStorage.getItem(key); } catch { return null; } };
const keep = (key, address) => { try { if (address) localStorage.setItem(key, address); else localStorage.removeItem(key); } catch { /* as above */ } };

class Refused extends Error {}

async function ask(method, address, headers = {}, body = undefined) {
  for (;;) {
    const answer = await fetch(address, { method, headers: { 'Tus-Resumable': '1.0.0', ...headers }, body, signal: AbortSignal.timeout(120000) });
    if (answer.status === 429) await wait(1000 * (Number(answer.headers.get('Retry-After')) || 10));
    // A full disk does not empty by itself: that is told as it is.
    else if (answer.status >= 500 && answer.status !== 507) throw new Error(answer.statusText);
    else return answer;
  }
}

async function reason(answer) {
  const problem = await answer.json().catch(() => ({}));
  return Object.values(problem.errors ?? {}).flat()[0] ?? problem.detail ?? t('It was refused.');
}

// One file, from wherever it stands to its end; tells how far it is, and what it waits for.
async function send(file, about, tell, gone) {
  const key = ['upload', about.garment, about.view, file.name, file.size, file.lastModified].join(' ');
  const named = Object.entries({ ...about, filename: file.name }).filter(([, value]) => value).map(([name, value]) => `${name} ${base64(value)}`).join(',');
  for (;;) {
    try {
      let address = kept(key);
      let at = address ? await stands(address) : null;
      if (at === null) {
        const answer = await ask('POST', '/api/uploads', { 'Upload-Length': file.size, 'Upload-Metadata': named });
        if (!answer.ok) throw new Refused(await reason(answer));
        [address, at] = [answer.headers.get('Location'), 0];
        keep(key, address);
      }
      // An empty part at the end asks for what became of a file whose last answer was lost.
      do {
        if (gone()) { await ask('DELETE', address); keep(key, null); return null; }
        tell(at);
        const piece = await file.slice(at, at + part).arrayBuffer();
        const headers = { 'Content-Type': 'application/offset+octet-stream', 'Upload-Offset': at };
        if (window.crypto?.subtle) headers['Upload-Checksum'] = 'sha256 ' + btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest('SHA-256', piece))));
        const answer = await ask('PATCH', address, headers, piece);
        if (answer.status === 409 || answer.status === 460) { at = Number(answer.headers.get('Upload-Offset') ?? await stands(address)); continue; }
        // What has come is still there for who signs in again, or makes room.
        if (!answer.ok) { if (![401, 507].includes(answer.status)) keep(key, null); throw new Refused(await reason(answer)); }
        at = Number(answer.headers.get('Upload-Offset'));
      } while (at < file.size);
      tell(at);
      const became = await (await ask('GET', address)).json();
      if (became.picture) keep(key, null);
      return became;
    } catch (trouble) {
      if (trouble instanceof Refused || trouble.name === 'NotReadableError') throw trouble;
      if (gone()) return null;
      tell(null);
      await wait(patience);
    }
  }
}

async function stands(address) {
  const answer = await ask('HEAD', address);
  return answer.ok ? Number(answer.headers.get('Upload-Offset')) : null;
}

function watch(form) {
  const garment = form.dataset.upload;
  const list = form.querySelector('[data-uploads]');
  const said = form.querySelector('[data-uploads-said]');
  const inputs = [...form.querySelectorAll('input[type=file]')];
  const rows = [];
  let running = 0;

  const say = () => {
    const done = rows.filter((row) => row.state === 'here').length;
    const held = rows.some((row) => row.state === 'held');
    said.textContent = rows.length === 0 ? ''
      : held ? t('The connection is lost. It goes on by itself once it is back.')
      : n(rows.length, '{0} of {1} picture is here.|{0} of {1} pictures are here.', done, rows.length);
  };

  function add(file, input) {
    const row = { file, input, state: 'waits', item: document.createElement('li') };
    row.bar = Object.assign(document.createElement('progress'), { max: file.size || 1, value: 0 });
    row.bar.setAttribute('aria-label', file.name);
    row.says = Object.assign(document.createElement('span'), { className: 'small soft', textContent: t('Waits its turn') });
    row.drop = Object.assign(document.createElement('button'), { type: 'button', className: 'plain', textContent: t('Leave it out') });
    row.drop.setAttribute('aria-label', t('Leave it out: {0}', file.name));
    row.drop.addEventListener('click', () => take(row));
    const name = Object.assign(document.createElement('span'), { className: 'file-name', textContent: file.name });
    row.item.append(name, row.bar, row.says, row.drop);
    list.append(row.item);
    rows.push(row);
    begun.set(file, row);
    return row;
  }

  function take(row) {
    row.state = 'gone';
    row.item.remove();
    row.mark?.remove();
    rows.splice(rows.indexOf(row), 1);
    if (row.upload && !garment) ask('DELETE', row.upload).catch(() => { /* it expires */ });
    const others = [...row.input.files].filter((file) => file !== row.file);
    const files = new DataTransfer();
    for (const file of others) files.items.add(file);
    row.input.files = files.files;
    say();
    form.dispatchEvent(new Event('input', { bubbles: true }));
  }

  async function run(row) {
    running++;
    const about = { garment, view: row.input.dataset.view ?? form.elements.view?.value, caption: garment ? form.elements.caption?.value : '' };
    try {
      row.state = 'on its way';
      const became = await send(row.file, about, (at) => {
        row.state = at === null ? 'held' : 'on its way';
        if (at !== null) row.bar.value = at;
        row.says.textContent = at === null ? t('Waits for the connection') : at < row.file.size ? `${Math.floor(100 * at / row.file.size)} %` : t('Being looked over');
        say();
      }, () => row.state === 'gone');
      if (became === null) return;
      row.state = 'here';
      row.upload = `/api/uploads/${became.id}`;
      row.says.textContent = became.picture?.already ? t('Was here already') : t('Here');
      if (garment) row.drop.remove();
      else {
        row.mark = Object.assign(document.createElement('input'), { type: 'hidden', name: `upload-${became.id}`, value: 'on' });
        form.append(row.mark);
        form.dispatchEvent(new Event('input', { bubbles: true }));
      }
    } catch (refused) {
      row.state = 'refused';
      row.item.classList.add('refused');
      row.says.className = 'wrong-text';
      row.says.setAttribute('role', 'alert');
      row.says.textContent = `${row.file.name}: ${refused instanceof Refused ? refused.message : t('It can no longer be read; choose it again.')}`;
    } finally {
      running--;
      say();
      next();
    }
  }

  const ends = [];
  function next() {
    while (running < atOnce) {
      const row = rows.find((waiting) => waiting.state === 'waits');
      if (!row) break;
      run(row);
    }
    if (running === 0) for (const end of ends.splice(0)) end();
  }

  // True once every file chosen is here; false when one was refused.
  form.settleUploads = () => new Promise((go) => { ends.push(go); next(); }).then(() => rows.every((row) => row.state === 'here'));
  form.uploaded = (input) => [...input.files].every((file) => begun.get(file)?.state === 'here');

  const start = () => {
    // Another file chosen in its place takes the first one out; one that was refused and left holds nothing up.
    for (const row of [...rows]) if ((!garment || row.state === 'refused') && ![...row.input.files].includes(row.file)) take(row);
    for (const input of inputs) for (const file of input.files) if (!begun.has(file)) add(file, input);
    say();
    next();
  };

  if (garment) {
    form.addEventListener('submit', async (event) => {
      if (inputs.every((input) => input.files.length === 0)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      const button = form.querySelector('button:not([type=button])');
      button.disabled = true;
      start();
      const fine = await form.settleUploads();
      button.disabled = false;
      for (const input of inputs) input.value = '';
      if (fine) location.assign(form.dataset.then);
    }, true);
  } else {
    form.addEventListener('change', (event) => { if (inputs.includes(event.target)) start(); });
  }

  // Where there is a mouse, files can be dropped on the form.
  const many = inputs.find((input) => input.multiple);
  if (many && window.matchMedia('(hover: hover)').matches) {
    const zone = form.querySelector('[data-drop]');
    zone.hidden = false;
    const target = zone.closest('.sheet');
    const over = (is) => target.classList.toggle('dropping', is);
    target.addEventListener('dragover', (event) => { event.preventDefault(); over(true); });
    target.addEventListener('dragleave', (event) => { if (!target.contains(event.relatedTarget)) over(false); });
    target.addEventListener('drop', (event) => {
      event.preventDefault();
      over(false);
      const files = new DataTransfer();
      for (const file of [...many.files, ...event.dataTransfer.files]) files.items.add(file);
      many.files = files.files;
      many.dispatchEvent(new Event('change', { bubbles: true }));
    });
  }
}

/** Takes up a form that is there, or that came with a page sent back. */
export function takeUp(form) { if (form.querySelector('[data-uploads]') && !form.settleUploads) watch(form); }

document.querySelectorAll('form[data-upload]').forEach(takeUp);
