// A part chosen on the drawing is chosen in the form, and the other way round.
for (const box of document.querySelectorAll('[data-outline]')) {
  const form = box.closest('form');
  const part = form?.elements.namedItem('part');
  const side = form?.elements.namedItem('side');
  const regions = [...box.querySelectorAll('a[data-part]')];
  if (!part || !side || regions.length === 0) continue;

  const said = box.querySelector('.outline-said');
  const odd = box.dataset.unusual.split(' ');
  const labelOf = (select) => select.value && select.selectedOptions[0].textContent;
  const isChosen = (region) => region.dataset.part === part.value
    && (!region.dataset.side || !['left', 'right'].includes(side.value) || region.dataset.side === side.value);

  const show = () => {
    for (const region of regions) region.setAttribute('aria-pressed', isChosen(region));
    const where = labelOf(part) + (side.value ? `, ${labelOf(side).toLowerCase()}` : '');
    const unusual = part.value && odd.includes(part.value) ? ` ${box.dataset.say.replace('{0}', () => labelOf(part))}` : '';
    said.textContent = part.value ? box.dataset.chosen.replace('{0}', () => where) + unusual : '';
  };

  const put = (select, value) => {
    if (select.value === value) return;
    select.value = value;
    select.dispatchEvent(new Event('input', { bubbles: true }));
    select.dispatchEvent(new Event('change', { bubbles: true }));
  };

  // A second touch takes it back.
  const choose = (region) => {
    const again = isChosen(region) && side.value === (region.dataset.side ?? '');
    put(part, again ? '' : region.dataset.part);
    put(side, again ? '' : region.dataset.side ?? (['left', 'right'].includes(side.value) ? '' : side.value));
    show();
  };

  // One stop for the Tab key on each drawing; the arrows walk over its parts.
  const rove = (to) => {
    for (const region of regions) if (region.ownerSVGElement === to.ownerSVGElement) region.setAttribute('tabindex', region === to ? '0' : '-1');
  };

  for (const region of regions) {
    region.setAttribute('role', 'button');
    region.removeAttribute('aria-current');
    region.addEventListener('click', (event) => { event.preventDefault(); rove(region); choose(region); });
    region.addEventListener('focus', () => rove(region));
    region.addEventListener('keydown', (event) => {
      const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      if (event.key === ' ') { event.preventDefault(); choose(region); }
      if (!step) return;
      event.preventDefault();
      const all = regions.filter((other) => other.ownerSVGElement === region.ownerSVGElement);
      all[(all.indexOf(region) + step + all.length) % all.length].focus();
    });
  }

  for (const svg of new Set(regions.map((region) => region.ownerSVGElement))) {
    rove(regions.find((region) => region.ownerSVGElement === svg && isChosen(region)) ?? regions.find((region) => region.ownerSVGElement === svg));
  }

  box.querySelector('[data-keys]').hidden = false;
  part.addEventListener('change', show);
  side.addEventListener('change', show);
  show();
}
