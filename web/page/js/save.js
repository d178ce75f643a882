// Files that the reader takes away.

/**
 * @param {string} name of the file
 * @param {string} text
 * @param {string} type
 */
export function save(name, text, type) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** @type {Promise<string> | undefined} */
let faces;

/** The page's faces as a style, so that a picture looks the same anywhere. */
function style() {
  return faces ??= Promise.all([["regular", 400], ["bold", 700]].map(async ([name, weight]) => {
    const answer = await fetch(new URL(`../fonts/${name}.woff2`, import.meta.url));
    if (!answer.ok) return "";
    const bytes = new Uint8Array(await answer.arrayBuffer());
    let text = "";
    for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
    return `@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:${weight};src:url(data:font/woff2;base64,${btoa(text)})}\n`;
  })).then((all) => all.join(""));
}

/**
 * Saves a drawing with its faces inside.
 * @param {string} name
 * @param {string} svg
 */
export async function savePicture(name, svg) {
  const css = await style();
  const head = svg.indexOf(">") + 1;
  save(name, `${svg.slice(0, head)}\n<style>text{font-variant-numeric:tabular-nums;font-kerning:none}\n${css}</style>${svg.slice(head)}`, "image/svg+xml");
}
