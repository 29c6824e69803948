// How far a change of many is, told as it goes; and all pieces of a page ticked at once. Both work without script by a press.

for (const part of document.querySelectorAll('[data-many]')) {
  const said = part.querySelector('[role=status]');
  const bar = part.querySelector('progress');
  part.querySelector('[data-again]').hidden = true;
  let told = 0;
  const look = async () => {
    try {
      const answer = await fetch(part.dataset.many);
      if (!answer.ok) throw new Error(answer.statusText);
      const { state, done, total } = await answer.json();
      if (state === 'done' || state === 'undone') return location.reload();
      bar.value = done;
      // Read out now and then, not at every piece.
      if (Date.now() - told > 3000) {
        said.textContent = n(total, '{0} of {1} piece had its turn.|{0} of {1} pieces had their turn.', done, total);
        told = Date.now();
      }
    } catch {
      said.textContent = t('The archive does not answer. It goes on as soon as it does.');
    }
    setTimeout(look, 700);
  };
  look();
}

for (const tick of document.querySelectorAll('[data-tick-all]')) {
  tick.hidden = false;
  tick.addEventListener('change', (event) => {
    for (const box of tick.closest('form').querySelectorAll('input[name=piece]')) box.checked = event.target.checked;
  });
}
