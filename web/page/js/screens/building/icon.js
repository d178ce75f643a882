// The small signs on buttons, drawn: the typeface has no arrows.

/** @type {Record<string, string>} */
const shapes = {
  raise: "M8 13V3M3.5 7.5 8 3l4.5 4.5",
  lower: "M8 3v10M3.5 8.5 8 13l4.5-4.5",
  add: "M8 3v10M3 8h10",
  remove: "m4 4 8 8M12 4l-8 8",
};

/** @param {string} name */
export function icon(name) {
  const space = "http://www.w3.org/2000/svg";
  const svg = document.createElementNS(space, "svg");
  for (const [key, value] of Object.entries({ viewBox: "0 0 16 16", width: "16", height: "16", "aria-hidden": "true", class: "sign" })) svg.setAttribute(key, value);
  const path = document.createElementNS(space, "path");
  path.setAttribute("d", shapes[name]);
  svg.append(path);
  return svg;
}
