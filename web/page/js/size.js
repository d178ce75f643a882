// Keeps the frame as large as its place, in device pixels, so that a line one
// pixel wide is one pixel wide at every ratio and every zoom.

/**
 * @param {HTMLElement} place
 * @param {HTMLIFrameElement} frame
 * @param {(width: number, height: number, ratio: number) => void} changed CSS pixels and device ratio
 */
export function fit(place, frame, changed) {
  const measure = () => {
    const ratio = devicePixelRatio;
    const { width, height } = place.getBoundingClientRect();
    if (width === 0 || height === 0) return;
    frame.style.width = `${Math.round(width * ratio)}px`;
    frame.style.height = `${Math.round(height * ratio)}px`;
    frame.style.transform = ratio === 1 ? "none" : `scale(${1 / ratio})`;
    changed(width, height, ratio);
  };
  new ResizeObserver(measure).observe(place);
  // The ratio can change with no change of size, and not every browser says so
  // every time: it is looked at.
  let ratio = devicePixelRatio;
  setInterval(() => {
    if (devicePixelRatio === ratio) return;
    ratio = devicePixelRatio;
    measure();
  }, 300);
  measure();
}
