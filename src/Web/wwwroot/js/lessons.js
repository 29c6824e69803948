// Entries of a lesson are dragged to another place with a mouse; everywhere else their buttons move them.
for (const form of document.querySelectorAll('form[data-order]')) {
  const list = document.querySelector(form.dataset.order);
  if (!list || !window.matchMedia('(pointer: fine)').matches) continue;
  const order = () => [...list.children].map((entry) => entry.dataset.entry).join(',');
  const before = order();
  let moving = null, next = null;
  for (const handle of list.querySelectorAll('[data-handle]')) {
    handle.hidden = false;
    handle.draggable = true;
    handle.addEventListener('dragstart', (event) => {
      moving = handle.closest('li');
      next = moving.nextElementSibling;
      moving.classList.add('moving');
      event.dataTransfer.effectAllowed = 'move';
      event.dataTransfer.setData('text/plain', moving.dataset.entry);
      event.dataTransfer.setDragImage(moving, 20, 20);
    });
    handle.addEventListener('dragend', (event) => {
      moving?.classList.remove('moving');
      // Given up, by Escape or beside the list.
      if (event.dataTransfer.dropEffect === 'none') list.insertBefore(moving, next);
      moving = null;
      if (order() === before) return;
      form.elements.order.value = order();
      form.requestSubmit();
    });
  }
  list.addEventListener('dragover', (event) => {
    const over = event.target.closest('li[data-entry]');
    if (!moving) return;
    event.preventDefault();
    if (!over || over === moving) return;
    const place = over.getBoundingClientRect();
    const after = event.clientY > place.bottom || (event.clientY > place.top && event.clientX > place.left + place.width / 2);
    over[after ? 'after' : 'before'](moving);
  });
  list.addEventListener('drop', (event) => event.preventDefault());
}
