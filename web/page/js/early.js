// The theme, set before the first paint so that nothing flashes.
{
  let chosen = null;
  try { chosen = localStorage.getItem("theme"); } catch { /* storage forbidden: follow the system */ }
  if (chosen !== "paper" && chosen !== "slate") {
    chosen = matchMedia("(prefers-color-scheme: dark)").matches ? "slate" : "paper";
  }
  document.documentElement.dataset.theme = chosen;
}
