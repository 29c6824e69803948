// What is more pleasant with script; every page works without it.

// Facets answer at once instead of waiting for their button.
for (const form of document.querySelectorAll('form[data-at-once]')) {
  form.addEventListener('change', (event) => {
    if (event.target.matches('input[type=checkbox], select')) form.requestSubmit();
  });
}

// What was typed is not lost by walking away unawares.
for (const form of document.querySelectorAll('form[data-keep]')) {
  let touched = form.dataset.keep === 'touched';
  form.addEventListener('input', () => { touched = true; });
  form.addEventListener('submit', () => { touched = false; });
  window.addEventListener('beforeunload', (event) => { if (touched) event.preventDefault(); });
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

// After an error the reader starts at what is wrong.
document.querySelector('[data-errors]')?.focus();
