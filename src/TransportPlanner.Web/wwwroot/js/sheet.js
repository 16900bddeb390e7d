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

// A browser that goes back to a form leaves out the fields it may not complete from earlier entries. These are places and settings of devices, kept by this browser until the tab is closed; nothing of the infant is among them.
const form = document.querySelector('[data-keep]');
if (form) {
  const fields = form.dataset.keep.split(' ').map((id) => document.getElementById(id)).filter(Boolean);
  const key = `typed ${location.pathname}${location.search}`;
  form.addEventListener('submit', () => sessionStorage.setItem(key, JSON.stringify(fields.map(({ id, value }) => [id, value]))));
  if (performance.getEntriesByType('navigation')[0]?.type === 'back_forward') {
    for (const [id, value] of JSON.parse(sessionStorage.getItem(key) ?? '[]')) {
      const field = document.getElementById(id);
      if (!field || field.value || !value) continue;
      field.value = value;
      const folded = field.closest('details');
      if (folded) folded.open = true;
    }
  }
}

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

// A walk is timed from one press to the next; the figure is sent only when the person keeps it. The clock of the day, since others stand while a phone sleeps.
for (const timer of document.querySelectorAll('[data-timer]')) {
  const [start, there] = timer.querySelectorAll('button');
  const seconds = document.getElementById(timer.dataset.timer);
  let began;
  [start.hidden, there.hidden, there.disabled] = [false, false, true];
  start.addEventListener('click', () => {
    began = Date.now();
    there.disabled = false;
    start.textContent = 'Start again';
  });
  there.addEventListener('click', () => {
    seconds.value = ((Date.now() - began) / 1000).toFixed(1);
    there.disabled = true;
    seconds.removeAttribute('aria-invalid');
  });
}
