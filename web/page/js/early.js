// What cannot wait for the modules. The theme is set before the first paint so that nothing flashes.
{
  const view = new URLSearchParams(location.search).get("view") ?? "alone";
  document.documentElement.dataset.view = view;
  let chosen = null;
  if (view === "exhibit") chosen = "paper"; // until its own settings are read
  else try { chosen = localStorage.getItem("theme"); } catch { /* storage forbidden: follow the system */ }
  if (chosen !== "paper" && chosen !== "slate") {
    chosen = matchMedia("(prefers-color-scheme: dark)").matches ? "slate" : "paper";
  }
  document.documentElement.dataset.theme = chosen;
}

// From a folder neither modules nor the program can be fetched: say so.
if (location.protocol === "file:") {
  addEventListener("DOMContentLoaded", () => {
    const words = JSON.parse(document.getElementById("words")?.textContent ?? "{}");
    const text = document.getElementById("waiting-text");
    if (text) text.textContent = words["page.no-file"];
    document.getElementById("progress")?.setAttribute("hidden", "");
    document.getElementById("waiting")?.classList.add("alone");
  });
}
