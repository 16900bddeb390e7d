// What script adds to a page that already works: printing from a button, and a closer view of a drawing.
import './closer.js';

const showPrint = () => { for (const button of document.querySelectorAll('[data-print]')) button.hidden = false; };
showPrint();
document.addEventListener('htmx:after:swap', showPrint);
document.addEventListener('click', (event) => {
  if (event.target.closest('[data-print]')) print();
});
