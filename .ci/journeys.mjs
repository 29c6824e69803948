// The three journeys by HTTP against the running demo: node .ci/journeys.mjs ADDRESS. Ends with "N passed, N failed".
const address = process.argv[2];
let passed = 0, failed = 0;

async function step(what, work) {
  try {
    await work();
    passed++;
    console.log(`  ok   ${what}`);
  } catch (e) {
    failed++;
    console.log(`  FAIL ${what}: ${e.message}`);
  }
}

function expect(condition, message) {
  if (!condition) throw new Error(message);
}

async function call(method, path, body, headers = {}) {
  const answer = await fetch(address + path, {
    method,
    headers: body ? { 'content-type': 'application/json', ...headers } : headers,
    body: body ? JSON.stringify(body) : undefined,
  });
  const bytes = Buffer.from(await answer.arrayBuffer());
  const json = /json/.test(answer.headers.get('content-type') ?? '') ? JSON.parse(bytes) : null;
  return { status: answer.status, headers: answer.headers, bytes, json };
}

let piece, tucks, position;

await step('the demo is there, with pictures', async () => {
  const { status, json } = await call('GET', '/api/garments?size=100');
  expect(status === 200 && json.total >= 40, `${status}, ${json?.total} garments`);
  const pictured = json.items.find(g => g.pictures.length > 0);
  expect(pictured, 'no garment has a picture');
  const picture = await call('GET', `/api/pictures/${pictured.pictures[0].id}/screen`);
  expect(picture.status === 200 && picture.bytes.length > 1000, `picture: ${picture.status}`);
});

await step('a new piece comes in', async () => {
  const answer = await call('POST', '/api/garments', {
    number: 'CI-014', name: 'Nainsook baby dress with a tucked yoke', kind: 'baby-dress', dated: '1908~', overall: 'fair',
    techniques: [
      { kind: 'tucks', tuckKind: 'pin', part: 'yoke', groups: [{ tucks: 6, width: '1/16 in', space: '3/16 in' }], runs: 'down',
        measuredFrom: 'centre-front', turned: 'to-sides', side: 'both', sewn: 'hand', handStitch: 'running', sure: 'certain' },
      { kind: 'lace', lace: 'torchon', part: 'hem', form: 'edging', set: ['gathered'], laceMade: 'hand', width: '3/4 in' },
    ],
    condition: [{ date: '2026-10-18', part: 'hem', what: 'lace-come-away', extent: '4 in', severity: 'moderate', attention: 'soon' }],
    repairs: [{ part: 'sleeve', method: 'patch', sewn: 'hand', when: 'in-period' }],
  });
  expect(answer.status === 201, `${answer.status} ${answer.bytes}`);
  expect(answer.headers.get('etag') === '"1"', `ETag ${answer.headers.get('etag')}`);
  piece = answer.json;
  tucks = piece.techniques.find(t => t.kind === 'tucks');
  position = answer.headers.get('x-position');
  expect(tucks.lies === 'towards-end', `lies ${tucks.lies}`);
});

await step('she changes it, and a stale change is refused', async () => {
  const changed = await call('PATCH', `/api/garments/${piece.id}`, { overall: 'weak' }, { 'if-match': '"1"' });
  expect(changed.status === 200 && changed.json.overall === 'weak' && changed.json.version === 2, `${changed.status}`);
  const stale = await call('PATCH', `/api/garments/${piece.id}`, { overall: 'sound' }, { 'if-match': '"1"' });
  expect(stale.status === 412 && stale.json.version === 2, `${stale.status}`);
});

await step('she finds it by what was done where, by hand, with its lace, before 1910', async () => {
  const { status, json } = await call('GET', `/api/search?tuckKind=pin&sewn=hand&part=yoke&lace=torchon&to=1909&seen=${position}`);
  expect(status === 200, `${status}`);
  const found = json.items.find(i => i.id === piece.id);
  expect(found && found.techniques.includes(tucks.id), 'the piece is not found');
  const other = await call('GET', '/api/search?tuckKind=pin&sewn=machine&part=yoke&lace=torchon');
  expect(!other.json.items.some(i => i.id === piece.id), 'found by what it is not');
  const typed = await call('GET', `/api/search?q=${encodeURIComponent('pin tucks by hand on a yoke, with torchon')}`);
  expect(typed.json.items.some(i => i.id === piece.id), 'not found by typed words');
});

await step('its page and the page of examples open', async () => {
  for (const path of ['/', '/pieces', `/pieces/${piece.id}`, '/examples?q=torchon', '/worksheets', '/work-it-out', '/words']) {
    const page = await call('GET', path);
    expect(page.status === 200 && page.bytes.includes('<h1'), `${path}: ${page.status}`);
  }
});

await step('she makes it again: worksheet, page and print', async () => {
  const made = await call('POST', '/api/worksheets', {
    garment: piece.id, technique: tucks.id, paper: 'A4',
    onto: { finished: '9 in', tucks: { from: 4, to: 12 }, width: { from: '1/8 in', to: '1/8 in' },
      space: { from: '1/8 in', to: '1/2 in' }, ends: { from: '1 in', to: '3 in' }, finest: '1/16 in' },
  });
  expect(made.status === 201, `${made.status} ${made.bytes}`);
  const plan = made.json.result.plan;
  expect(plan.finished.mm === 228.6, `finished ${plan.finished.mm}`);
  expect(Math.abs(plan.cloth.mm - plan.finished.mm - plan.takeUp.mm) < 1e-9, 'cloth is not finished + take-up');
  const page = await call('GET', `/worksheets/${made.json.id}`);
  expect(page.status === 200 && page.bytes.includes('<svg'), `page ${page.status}`);
  const first = await call('GET', `/worksheets/${made.json.id}.pdf`);
  const again = await call('GET', `/worksheets/${made.json.id}.pdf`);
  expect(first.status === 200 && first.bytes.subarray(0, 5).toString() === '%PDF-', `pdf ${first.status}`);
  expect(first.bytes.equals(again.bytes), 'two prints differ');
});

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
