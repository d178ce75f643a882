// Every browser test, in one process, so that one Chromium serves them all.
import { after, before } from "node:test";
import { start, stop } from "./browser.mjs";

before(start);
after(stop);

await import("./markup.mjs");
await import("./machine.mjs");
await import("./files.mjs");
await import("./time.mjs");
await import("./sound.mjs");
await import("./compare.mjs");
await import("./takeaway.mjs");
await import("./lesson.mjs");
await import("./lessons.mjs");
await import("./editor.mjs");
await import("./circuit.mjs");
await import("./drive.mjs");
await import("./winding.mjs");
await import("./ring.mjs");
await import("./parts.mjs");
await import("./access.mjs");
await import("./screens.mjs");
await import("./lighthouse.mjs");
await import("./fallback.mjs");
await import("./worksheet.mjs");
await import("./lecture.mjs");
await import("./exhibit.mjs");
await import("./unattended.mjs");
await import("./results.mjs");
await import("./writer.mjs");
await import("./offline.mjs");
await import("./kiosk.mjs");
await import("./language.mjs");
