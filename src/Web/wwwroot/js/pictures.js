// Tags as she types: each after the last comma is offered from those there are. And the check of the originals, as it runs.

for (const input of document.querySelectorAll('input[data-tags]')) {
  const list = document.getElementById(input.getAttribute('list'));
  const all = [...list.options].map((option) => option.value);
  input.addEventListener('input', () => {
    const before = input.value.slice(0, input.value.lastIndexOf(',') + 1);
    const has = input.value.split(',').map((tag) => tag.trim());
    list.replaceChildren(...all.filter((tag) => !has.includes(tag)).map((tag) => Object.assign(document.createElement('option'), { value: before ? `${before} ${tag}` : tag })));
  });
}

for (const box of document.querySelectorAll('[data-check]')) {
  const bar = box.querySelector('progress');
  const said = box.querySelector('[data-check-said]');
  const look = setInterval(async () => {
    const answer = await fetch(box.dataset.check).then((got) => got.json()).catch(() => null);
    if (!answer) return;
    if (!answer.running) {
      clearInterval(look);
      location.reload();
      return;
    }
    [bar.max, bar.value] = [answer.running.total || 1, answer.running.checked];
    said.textContent = t('{0} of {1}', answer.running.checked, answer.running.total);
  }, 1000);
}
