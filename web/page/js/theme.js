// The two themes: the system's choice until the reader makes one.
import { radio, the } from "./dom.js";

/** @param {(theme: string) => void} changed */
export function theme(changed) {
  const group = the("theme");
  const root = document.documentElement;
  const show = (/** @type {string} */ name) => {
    root.dataset.theme = name;
    radio(group, name);
    changed(name);
  };
  group.addEventListener("change", () => {
    const name = radio(group);
    try { localStorage.setItem("theme", name); } catch { /* storage forbidden: not remembered */ }
    show(name);
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", (event) => {
    let chosen = null;
    try { chosen = localStorage.getItem("theme"); } catch { /* storage forbidden */ }
    if (!chosen) show(event.matches ? "slate" : "paper");
  });
  show(root.dataset.theme ?? "paper");
}
