// The controls of a question, one set for each kind. Each tells the answer as
// the tutor spells it, finished or not, whenever it changes; none has anything
// chosen beforehand, and each can be worked with the keyboard alone.
import { make, say } from "./dom.js";
import { capital, number, unspelt, word } from "./words.js";

/** @typedef {import("./lesson-types.js").Lesson} Lesson */
/** @typedef {import("./lesson-types.js").Choice} Choice */

/**
 * @typedef {object} Controls
 * @property {HTMLElement} element
 * @property {(answer: string) => void} take the answer has come from the picture
 */

/**
 * @param {Lesson} lesson
 * @param {string} chosen the answer so far
 * @param {(answer: string) => void} choose
 * @param {(part: string) => void} show shows a part in the picture
 * @returns {Controls}
 */
export function controls(lesson, chosen, choose, show) {
  const still = { take: () => {} };
  switch (lesson.kind) {
    case "order-stops": return { ...still, element: order(lesson, chosen, choose) };
    case "set-switches": return { ...still, element: switches(lesson, chosen, choose) };
    case "point-at-part":
    case "faulty-part": return parts(lesson, chosen, choose, show);
    case "read-number": return { ...still, element: reading(lesson, chosen, choose) };
    case "lamp-out": return { ...still, element: timeLine(lesson, chosen, choose) };
  }
  return { ...still, element: options(lesson, chosen, choose) };
}

/** A name that no other group of this page has. @param {Lesson} lesson @param {string} what */
const group = (lesson, what) => `${what}-${lesson.item}-${lesson.state}`;

/**
 * @param {string} id message of the legend
 * @param {string} kind
 * @param {...(Node | string)} children
 */
function fieldset(id, kind, ...children) {
  return make("fieldset", { class: `options ${kind}` }, make("legend", { class: "unseen" }, word(id)), ...children);
}

/** One answer or several: radio buttons or boxes to tick. @param {Lesson} lesson @param {string} chosen @param {(answer: string) => void} choose */
function options(lesson, chosen, choose) {
  const several = Boolean(lesson.task?.several);
  const was = chosen.split(" ");
  const inputs = lesson.options.map(({ id }) => make("input", {
    type: several ? "checkbox" : "radio", name: group(lesson, "answer"), value: id, checked: was.includes(id),
    onchange: () => choose(inputs.filter((input) => input.checked).map((input) => input.value).join(" ")),
  }));
  return fieldset("page.lesson-options", "", ...(several ? [make("p", { class: "hint" }, word("page.lesson-several"))] : []),
    ...lesson.options.map(({ text }, i) => make("label", { class: "option" }, inputs[i], make("span", {}, text))));
}

/** Stops in order: each floor is a button that puts it behind the others, or takes it out again. @param {Lesson} lesson @param {string} chosen @param {(answer: string) => void} choose */
function order(lesson, chosen, choose) {
  let stops = chosen.split(" ").filter(Boolean);
  const list = make("p", { class: "order-said", role: "status" });
  const floors = lesson.task?.floors ?? [];
  const buttons = floors.map(({ id, text }) => make("button", {
    type: "button", class: "order-floor", "data-floor": id,
    onclick: () => {
      stops = stops.includes(id) ? stops.filter((stop) => stop !== id) : [...stops, id];
      draw();
      choose(stops.join(" "));
    },
  }, make("span", { class: "order-place", "aria-hidden": "true" }), make("span", {}, text)));
  function draw() {
    floors.forEach(({ id, text }, i) => {
      const at = stops.indexOf(id) + 1;
      buttons[i].setAttribute("aria-pressed", String(at > 0));
      buttons[i].setAttribute("aria-label", at > 0 ? word("page.lesson-stop-at", { place: at, floor: text }) : text);
      say(buttons[i].children[0], at > 0 ? `${at}.` : "");
    });
    const names = stops.map((id) => floors.find((floor) => floor.id === id)?.text ?? id);
    say(list, names.length ? names.join(word("page.lesson-then")) : word("page.lesson-no-stops"));
  }
  draw();
  return fieldset("page.lesson-options", "order", make("p", { class: "hint" }, word("page.lesson-order-hint")),
    make("div", { class: "order-floors" }, ...buttons), list);
}

/** A direction switch for each floor, highest at the top as in the shaft. @param {Lesson} lesson @param {string} chosen @param {(answer: string) => void} choose */
function switches(lesson, chosen, choose) {
  const was = new Map(chosen.split(" ").filter(Boolean).map((word) => /** @type {[string, string]} */ (word.split(":"))));
  const floors = lesson.task?.floors ?? [], stands = lesson.task?.stands ?? [];
  const tell = () => choose(floors.flatMap(({ id }) => was.has(id) ? [`${id}:${was.get(id)}`] : []).join(" "));
  const rows = floors.map(({ id, text }) => make("fieldset", { class: "segments stand-row" },
    make("legend", {}, text),
    ...stands.map((stand) => make("label", {},
      make("input", {
        type: "radio", name: `${group(lesson, "stand")}-${id}`, value: stand.id, checked: was.get(id) === stand.id,
        onchange: () => { was.set(id, stand.id); tell(); },
      }), make("span", {}, stand.text)))));
  return make("div", { class: "options stands", role: "group", "aria-label": word("page.lesson-options") }, ...rows.reverse());
}

/** A part: pointed at in the picture, or picked from the list. @param {Lesson} lesson @param {string} chosen @param {(answer: string) => void} choose @param {(part: string) => void} show @returns {Controls} */
function parts(lesson, chosen, choose, show) {
  const list = lesson.task?.parts ?? [];
  const inputs = list.map(({ id }) => make("input", {
    type: "radio", name: group(lesson, "part"), value: id, checked: id === chosen,
    onchange: () => { choose(id); show(id); },
  }));
  return {
    element: fieldset("page.lesson-options", "parts", make("p", { class: "hint" }, word("page.lesson-point-hint")),
      ...list.map(({ text }, i) => make("label", { class: "option" }, inputs[i], make("span", {}, capital(text))))),
    take: (answer) => inputs.forEach((input) => { input.checked = input.value === answer; }),
  };
}

/** A number with a point or a comma. */
const figure = /^\s*[-−]?\d*[.,]?\d+\s*$/;

/** @param {Lesson} lesson @param {string} chosen @param {(answer: string) => void} choose */
function reading(lesson, chosen, choose) {
  const { unit = "", tolerance = "" } = lesson.task ?? {};
  const id = group(lesson, "number");
  const hint = make("p", { class: "hint", id: `${id}-hint` }, tolerance);
  const input = make("input", {
    type: "text", inputmode: "decimal", autocomplete: "off", class: "number", id, size: "8", maxlength: "12", value: chosen,
    "aria-describedby": hint.id,
    oninput: () => {
      const ok = figure.test(input.value);
      input.setAttribute("aria-invalid", String(input.value.trim() !== "" && !ok));
      say(hint, input.value.trim() !== "" && !ok ? word("page.lesson-no-number") : tolerance);
      choose(ok ? input.value.trim() : "");
    },
  });
  return make("div", { class: "options reading" },
    make("label", { for: id }, word("page.lesson-number")),
    make("span", { class: "with-unit" }, input, ...(unit ? [make("span", { class: "unit" }, unit)] : [])), hint);
}

/** A moment on a time line, by a slider and by a number beside it. @param {Lesson} lesson @param {string} chosen @param {(answer: string) => void} choose */
function timeLine(lesson, chosen, choose) {
  const { span_s: span = 10, tolerance = "" } = lesson.task ?? {};
  const id = group(lesson, "moment");
  const slider = make("input", {
    type: "range", min: "0", max: String(span), step: "0.1", class: "moment", id,
    "aria-describedby": `${id}-hint`, "aria-valuetext": word("page.lesson-no-moment"),
    oninput: () => mark(Number(slider.value), slider),
  });
  const field = make("input", {
    type: "text", inputmode: "decimal", autocomplete: "off", class: "number", size: "5", maxlength: "6", id: `${id}-field`,
    oninput: () => {
      const value = Number(unspelt(field.value.trim()));
      const ok = figure.test(field.value) && value >= 0 && value <= span;
      field.setAttribute("aria-invalid", String(field.value.trim() !== "" && !ok));
      if (ok) mark(value, field); else { forget(); choose(""); }
    },
  });
  slider.value = "0";

  /** @param {number} value @param {HTMLInputElement} by */
  function mark(value, by) {
    slider.classList.remove("unset");
    slider.setAttribute("aria-valuetext", word("page.value-seconds", { value: number(value, 1) }));
    if (by !== slider) slider.value = String(value);
    if (by !== field) { field.value = number(value, 1); field.removeAttribute("aria-invalid"); }
    choose(String(value));
  }
  function forget() {
    slider.classList.add("unset");
    slider.setAttribute("aria-valuetext", word("page.lesson-no-moment"));
  }
  forget();
  if (chosen) {
    slider.value = chosen;
    slider.classList.remove("unset");
    field.value = number(Number(chosen), 1);
  }
  const steps = span > 15 ? 5 : span > 6 ? 2 : 1;
  const marks = [];
  for (let t = 0; t <= span; t += steps) marks.push(make("span", { style: false, "data-at": String(t / span) }, number(t, 0)));
  const scale = make("div", { class: "moment-scale", "aria-hidden": "true" }, ...marks);
  for (const at of marks) at.style.setProperty("--at", at.dataset.at ?? "0");
  return make("div", { class: "options time-line" },
    make("label", { for: id }, word("page.lesson-moment")), slider, scale,
    make("div", { class: "with-unit" }, make("label", { for: field.id }, word("page.lesson-moment-field")), field, make("span", { class: "unit" }, "s")),
    make("p", { class: "hint", id: `${id}-hint` }, tolerance));
}
