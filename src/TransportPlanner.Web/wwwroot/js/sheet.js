// What script adds to a page that already works: printing from a button, pan and zoom on a drawing.
for (const button of document.querySelectorAll('[data-print]')) button.hidden = false;
document.addEventListener('click', (event) => {
  if (event.target.closest('[data-print]')) print();
});
document.addEventListener('htmx:afterSwap', () => {
  for (const button of document.querySelectorAll('[data-print]')) button.hidden = false;
});
