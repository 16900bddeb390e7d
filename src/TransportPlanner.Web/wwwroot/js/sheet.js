// What script adds to a page that already works: printing from a button, and a closer view of a drawing.
import './closer.js';

const showPrint = () => { for (const button of document.querySelectorAll('[data-print]')) button.hidden = false; };
showPrint();
document.addEventListener('htmx:after:swap', showPrint);
document.addEventListener('click', (event) => {
  if (event.target.closest('[data-print]')) print();
});

// A mark at a field is about what stood there when the page was sent: it goes once somebody types.
document.addEventListener('input', (event) => {
  event.target.removeAttribute('aria-invalid');
  for (const error of event.target.closest('.field')?.querySelectorAll('.field-error') ?? []) error.remove();
});

// Figures never stand as the answer to an entry that was not counted.
for (const name of ['htmx:error', 'htmx:response:error']) {
  document.addEventListener(name, ({ detail }) => {
    const answer = detail.ctx?.target;
    if (!answer || answer.querySelector('.stale')) return;
    const words = document.createElement('p');
    words.className = 'attend stale';
    words.textContent = 'The planner did not answer. What stands below is of an earlier entry: press the button to send this one.';
    answer.prepend(words);
  });
}
