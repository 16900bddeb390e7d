// Day or night reading. Without script the page follows the system's setting.
const root = document.documentElement;
const button = document.querySelector('.light');
const stored = localStorage.getItem('light');
if (stored) root.dataset.light = stored;

function isNight() {
  return root.dataset.light ? root.dataset.light === 'night' : matchMedia('(prefers-color-scheme: dark)').matches;
}

if (button) {
  button.hidden = false;
  const name = () => { button.textContent = isNight() ? 'Day reading' : 'Night reading'; };
  name();
  button.addEventListener('click', () => {
    root.dataset.light = isNight() ? 'day' : 'night';
    localStorage.setItem('light', root.dataset.light);
    name();
  });
}
