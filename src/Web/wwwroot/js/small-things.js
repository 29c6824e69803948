// What is more pleasant with script; every page works without it.

// Facets answer at once instead of waiting for their button; who ticked one by the keyboard goes on from there.
for (const form of document.querySelectorAll('form[data-at-once]')) {
  form.addEventListener('change', (event) => {
    const box = event.target;
    if (box.form !== form || !box.matches('input[type=checkbox], select')) return;
    if (box.matches(':focus-visible')) sessionStorage.setItem('ticked', JSON.stringify([box.name, box.type === 'checkbox' ? box.value : null]));
    form.requestSubmit();
  });
  const [name, value] = JSON.parse(sessionStorage.getItem('ticked') ?? '[]');
  sessionStorage.removeItem('ticked');
  const there = name && [...form.elements].find((box) => box.name === name && (value === null || box.value === value));
  if (there) {
    const folded = there.closest('details');
    if (folded) folded.open = true;
    there.focus();
  }
}

// A second press while the first is under way sends nothing twice.
for (const form of document.querySelectorAll('form[method=post]')) {
  form.addEventListener('submit', (event) => {
    if (form.dataset.sent) event.preventDefault();
    form.dataset.sent = 'yes';
  });
  window.addEventListener('pageshow', () => { delete form.dataset.sent; });
}

// The sheet prints from its own button.
for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false;
  button.addEventListener('click', () => window.print());
}

// What to take care of is on paper also where it is folded away on the screen.
addEventListener('beforeprint', () => {
  for (const folded of document.querySelectorAll('details.care:not([open])')) {
    folded.open = true;
    addEventListener('afterprint', () => { folded.open = false; }, { once: true });
  }
});

// After an error the reader starts at what is wrong.
document.querySelector('[data-errors]')?.focus();
