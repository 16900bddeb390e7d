// A closer view of a floor plan, by buttons and by dragging with a mouse. Wheel and touch stay with the page, so that it always
// scrolls. Until a button is pressed, and on paper, the drawing is the plain one.
const step = 0.25;

for (const tools of document.querySelectorAll('[data-pan-zoom-tools]')) {
  const svg = tools.parentElement.querySelector('[data-pan-zoom]');
  if (!svg || !globalThis.svgPanZoom) continue;
  const box = svg.getAttribute('viewBox');
  const [, , width, height] = box.split(' ').map(Number);
  const moves = tools.querySelector('.moves');
  let view = null;
  let dragged = false;
  tools.hidden = false;
  // The library takes the viewBox away, and would write a style attribute, which the content policy refuses.
  svg.style.aspectRatio = `${width} / ${height}`;
  svg.style.overflow = 'hidden';

  function open() {
    view ??= svgPanZoom(svg, {
      mouseWheelZoomEnabled: false,
      dblClickZoomEnabled: false,
      minZoom: 1,
      maxZoom: 12,
      beforePan(from, to) {
        dragged = true;
        const { width: w, height: h, viewBox, realZoom } = this.getSizes();
        return {
          x: Math.min(0, Math.max(w - viewBox.width * realZoom, to.x)),
          y: Math.min(0, Math.max(h - viewBox.height * realZoom, to.y)),
        };
      },
      customEventsHandler: { haltEventListeners: ['touchstart', 'touchmove', 'touchend', 'touchleave', 'touchcancel'], init() {}, destroy() {} },
    });
    moves.hidden = false;
    return view;
  }

  function whole() {
    if (!view) return;
    view.destroy();
    view = null;
    moves.hidden = true;
    svg.setAttribute('viewBox', box);
    const viewport = svg.querySelector('.svg-pan-zoom_viewport');
    viewport.removeAttribute('transform');
    viewport.style.transform = '';
  }

  const by = (x, y) => open().panBy({ x: x * step * svg.clientWidth, y: y * step * svg.clientHeight });
  const actions = {
    closer: () => open().zoomBy(1.5),
    farther: () => { if (view) view.getZoom() < 1.6 ? whole() : view.zoomBy(1 / 1.5); },
    whole,
    left: () => by(1, 0),
    right: () => by(-1, 0),
    up: () => by(0, 1),
    down: () => by(0, -1),
  };
  tools.addEventListener('click', (event) => actions[event.target.closest('[data-view]')?.dataset.view]?.());

  // The end of a drag is not a choice of a place.
  svg.addEventListener('mousedown', () => { dragged = false; });
  svg.addEventListener('click', (event) => { if (view && dragged) event.preventDefault(); }, true);

  // A place that the keyboard reaches comes into view.
  svg.addEventListener('focusin', (event) => {
    if (!view) return;
    const [frame, place] = [svg.getBoundingClientRect(), event.target.getBoundingClientRect()];
    if (place.left < frame.left || place.right > frame.right || place.top < frame.top || place.bottom > frame.bottom) {
      view.panBy({ x: frame.left + frame.width / 2 - place.left - place.width / 2, y: frame.top + frame.height / 2 - place.top - place.height / 2 });
    }
  });
  addEventListener('beforeprint', whole);
  addEventListener('resize', whole);
}
