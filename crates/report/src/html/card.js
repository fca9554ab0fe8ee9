"use strict";
// Counts, marks, keeps and writes the record of one job card, whose fields are in readings.js. Everything it knows of
// the plan stands in the page.
(() => {
  const RECORD_FORMAT = 1;
  const LARGEST_FILE = 4 * 1024 * 1024;
  const byId = (id) => document.getElementById(id);
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const data = document.querySelector("main").dataset;
  const blank = JSON.parse(data.record);
  const key = `bleedwright-card-${data.plan}`;
  const vehicle = blank.readings_of.name;
  const say = (text) => { byId("said").textContent = text; };
  const tell = (text) => { byId("told").textContent = text; };
  const rounded = (ml) => String(Math.round(ml));

  // ---- Ticks and steps

  const ticks = all("[data-tick]");
  const steps = all("[data-step]").map((element) => ({
    element,
    ...JSON.parse(element.dataset.step),
    count: element.querySelector(".count input"),
    readings: all(".jar input", element),
    tick: element.querySelector("[data-tick]"),
    fluid: element.querySelector(".fluid"),
    seen: 0, // stops that were seen to
    isEntered: false, // somebody is at its counter
    isGivenUp: false, // the warning at the give-up amount was seen
  }));

  // Fluid of every step, from its jars where they were read, else from what was counted. A jar fills from step to step.
  function measure() {
    const marks = {};
    for (const step of steps) {
      const counted = Math.max(0, Number(step.count.value) || 0);
      const planned = step.jars.reduce((sum, jar) => sum + jar.push_ml, 0);
      step.counted = counted;
      step.pushed = 0;
      step.note = "";
      step.jars.forEach((jar, nth) => {
        const before = marks[jar.jar] ?? 0;
        const text = step.readings[nth].value;
        let pushed = (counted / step.wanted) * jar.push_ml;
        if (text !== "" && Number(text) >= 0) {
          const mark = Number(text);
          step.note = " by the jar";
          if (mark < before) step.note += `, taken as emptied: it held ${rounded(before)} ml before this step`;
          pushed = mark < before ? mark : mark - before;
          marks[jar.jar] = mark;
        } else {
          if (counted === 0 && step.tick.checked) {
            pushed = jar.push_ml;
            step.note = " by the plan, not counted";
          }
          marks[jar.jar] = before + pushed;
        }
        step.pushed += pushed;
      });
      step.planned = planned;
      // More fluid than strokes say has left the reservoir too: the stop that comes first counts.
      step.position = Math.max(counted, Math.floor((step.pushed / planned) * step.wanted + 1e-9));
    }
  }

  function showStep(step, isCurrent) {
    const { element, fluid, wanted } = step;
    if (isCurrent) element.setAttribute("aria-current", "step");
    else element.removeAttribute("aria-current");
    element.querySelector(".now").textContent = step.tick.checked ? "✓ done" : isCurrent ? "NOW" : "";
    const isFull = step.pushed >= step.planned - 0.05;
    step.isOver = step.pushed >= step.give_up_ml;
    let text = `Fluid: ${rounded(step.pushed)} of ${step.planned} ml${step.note}.`;
    step.isOver &&= !step.tick.checked;
    if (step.isOver) text += ` GIVE UP at ${step.give_up_ml} ml: stop, find where air enters.`;
    else if (isFull && !step.tick.checked) text += " Amount reached: go on until it runs clear, then shut.";
    fluid.textContent = text;
    fluid.classList.toggle("full", isFull && !step.isOver);
    fluid.classList.toggle("over", step.isOver);
    if (!step.isOver) step.isGivenUp = false;
    element.querySelector(".less").disabled = step.counted === 0;
    const unit = step.unit === "ml" ? " ml" : "";
    step.heard = `${step.counted}${unit} of ${wanted}${unit}, ${rounded(step.pushed)} ml`;
  }

  // What must be seen to before the next stroke. A stop before the first is due once its step has its turn.
  function due(step, isCurrent, hasBegun) {
    return step.stops.filter((stop, nth) =>
      nth >= step.seen && stop.after <= step.position &&
      (stop.after > 0 || step.position > 0 || step.isEntered || (isCurrent && hasBegun)));
  }

  function showBanner(pending) {
    const banner = byId("banner");
    const lines = pending.flatMap(({ step, stops }) => {
      const texts = [];
      if (step.isOver && !step.isGivenUp) {
        texts.push(`GIVE UP: ${step.give_up_ml} ml reached at ${step.name}. Stop, find where air enters.`);
      }
      for (const compartment of new Set(stops.map((stop) => stop.compartment))) {
        const [first, ...more] = stops.filter((stop) => stop.compartment === compartment);
        const places = [first, ...more].map((stop) => stop.after).filter((after) => after > 0);
        const unit = step.unit === "ml" ? "ml" : places.join() === "1" ? "stroke" : "strokes";
        const after = places.length > 0 ? [`after ${places.join(", ")} ${unit}`] : [];
        const place = [...(first.after === 0 ? ["before the first"] : []), ...after].join(", ");
        const past = step.position > Math.max(0, ...places) && places.length > 0 ? `, now ${step.position}` : "";
        texts.push(`${first.text} ${compartment}: ${place}${past}. Step ${step.number}, ${step.name}.`);
      }
      return texts;
    });
    const shown = lines.join("\n");
    if (banner.dataset.shown === shown) return;
    banner.dataset.shown = shown;
    const hadFocus = banner.contains(document.activeElement);
    banner.replaceChildren(...lines.map((line) => Object.assign(document.createElement("p"), { textContent: line })));
    if (lines.length === 0) {
      if (hadFocus) (lastCounter ?? steps[0].count).focus();
      return;
    }
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = "Seen to: go on";
    button.addEventListener("click", () => {
      for (const { step, stops } of pending) {
        step.seen += stops.length;
        if (step.isOver) step.isGivenUp = true;
      }
      refresh();
    });
    banner.append(button);
    if (hadFocus) button.focus();
  }

  let lastCounter = null;

  function refresh() {
    measure();
    const current = steps.find((step) => !step.tick.checked);
    const isReady = ticks.filter((tick) => tick.dataset.tick.startsWith("before ")).every((tick) => tick.checked);
    const pending = [];
    for (const step of steps) {
      showStep(step, step === current);
      const hasBegun = step === steps[0] ? isReady : true;
      const stops = step.tick.checked ? [] : due(step, step === current, hasBegun);
      if (stops.length > 0 || (step.isOver && !step.isGivenUp)) pending.push({ step, stops });
    }
    showBanner(pending);
    const done = (list) => {
      const of = ticks.filter((tick) => tick.dataset.tick.startsWith(`${list} `));
      return `${of.filter((tick) => tick.checked).length} of ${of.length}`;
    };
    const now = current ? `Now step ${current.number}: ${current.name}. ` : "All steps ticked. ";
    const next = byId("now");
    next.textContent = current ? `Now: step ${current.number}` : "Now: after";
    next.setAttribute("href", current ? `#${current.element.id}` : "#after");
    byId("progress").textContent = `${now}Ticked: before ${done("before")}, steps ${done("step")}, after ${done("after")}.`;
    keep();
  }

  for (const step of steps) {
    const by = step.unit === "ml" ? 10 : 1;
    const count = (change) => {
      step.count.value = Math.min(99999, Math.max(0, (Number(step.count.value) || 0) + change));
      step.isEntered = true;
      refresh();
      say(step.heard);
    };
    step.element.querySelector(".more").addEventListener("click", () => count(by));
    step.element.querySelector(".less").addEventListener("click", () => count(-by));
    step.element.querySelector(".counter").addEventListener("focusin", (event) => {
      lastCounter = event.target;
      step.isEntered = true;
      refresh();
    });
    for (const input of [step.count, ...step.readings]) {
      input.addEventListener("input", refresh);
      input.addEventListener("change", () => { if (!(Number(input.value) >= 0)) input.value = ""; refresh(); });
    }
  }
  for (const tick of ticks) tick.addEventListener("change", refresh);

  // ---- Readings

  const { fields, write, take, check, refusal } = Readings;
  Readings.whenChanged(keep);

  // ---- Keeping: the browser's own memory, so that a reload loses nothing

  function state() {
    return {
      ticked: ticks.filter((tick) => tick.checked).map((tick) => tick.dataset.tick),
      counted: steps.flatMap((step) => [
        ...(Number(step.count.value) > 0 ? [`step ${step.number}: ${Number(step.count.value)}`] : []),
        ...(step.seen > 0 ? [`step ${step.number} stops: ${step.seen}`] : []),
        ...step.readings.flatMap((input, nth) =>
          input.value === "" ? [] : [`step ${step.number} jar ${nth + 1}: ${Number(input.value)}`]),
      ]),
      fields: fields.map((field) => [field.id, field.radios ? write(field) : field.element.value, field.unit?.value]),
    };
  }

  function restoreMarks({ ticked = [], counted = [] }) {
    for (const tick of ticks) tick.checked = ticked.includes(tick.dataset.tick);
    const marks = new Map(counted.map((line) => line.split(": ")));
    for (const step of steps) {
      step.count.value = marks.get(`step ${step.number}`) ?? 0;
      step.seen = Math.min(step.stops.length, Number(marks.get(`step ${step.number} stops`)) || 0);
      step.isEntered = step.isGivenUp = false;
      step.readings.forEach((input, nth) => { input.value = marks.get(`step ${step.number} jar ${nth + 1}`) ?? ""; });
    }
  }

  let isRestored = false;

  function keep() {
    if (!isRestored) return;
    try {
      localStorage.setItem(key, JSON.stringify(state()));
      byId("unkept").textContent = "";
    } catch {
      const text = "This browser keeps nothing of this card: save the file before you close the page.";
      if (byId("unkept").textContent !== text) byId("unkept").textContent = text;
    }
  }

  const untouched = JSON.stringify(state());

  function clear() {
    restoreMarks({});
    for (const field of fields) take(field, (field.item === null ? blank[field.section] : blank[field.section][field.item])[field.field]);
  }

  function restore() {
    let kept = null;
    try {
      kept = JSON.parse(localStorage.getItem(key));
      if (kept) restoreMarks(kept);
      for (const [id, text, unit] of kept?.fields ?? []) {
        const field = fields.find((known) => known.id === id);
        if (!field) continue;
        if (field.radios) take(field, text);
        else field.element.value = text;
        if (field.unit && unit) field.unit.value = unit;
      }
    } catch {
      if (kept) clear(); // What is there is not ours.
    }
    isRestored = true;
    check();
  }

  // ---- Files

  function record() {
    const result = structuredClone(blank);
    for (const field of fields) {
      const part = field.item === null ? result[field.section] : result[field.section][field.item];
      const isText = typeof part[field.field] === "string" && !field.words && !field.quantity;
      part[field.field] = write(field) ?? (isText ? "" : null);
    }
    const { ticked, counted } = state();
    result.card = { plan: data.plan, amounts: data.amounts, ticked, counted };
    return `${JSON.stringify(result, null, 4)}\n`;
  }

  function save() {
    const [first] = check();
    if (first) {
      tell(`Not saved: ${first.name} ${refusal(first, write(first)) || "contradicts another reading"}. Correct it or clear it.`);
      (first.radios?.[0] ?? first.element).focus();
      return;
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([record()], { type: "application/json" }));
    const plain = vehicle.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").slice(0, 60).replace(/^-|-$/g, "");
    link.download = `${plain || "vehicle"}-card.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    tell(`Saved as ${link.download} among the downloads.`);
  }

  // A file as values for the fields; throws a sentence where it is not for this card.
  function readFile(text) {
    const body = text.replace(/^\uFEFF/, "").trim();
    if (body.startsWith("(") || body.startsWith("//")) {
      throw "this is RON; make JSON of it with: bleedwright readings FILE --format record-json";
    }
    let file;
    try {
      file = JSON.parse(body);
    } catch (error) {
      throw `this is not JSON, or only a part of a file (${error.message})`;
    }
    const isStructure = (part) => typeof part === "object" && part !== null && !Array.isArray(part);
    if (!isStructure(file) || !isStructure(file.readings_of)) throw "this is not a record of readings";
    if (file.format !== RECORD_FORMAT) throw `the format number is ${JSON.stringify(file.format)}, this card reads ${RECORD_FORMAT}`;
    if (file.readings_of.name !== vehicle) {
      throw `it belongs to “${file.readings_of.name}”, this card to “${vehicle}”`;
    }
    for (const list of ["controls", "brakes", "screws", "compartments"]) {
      const theirs = file.readings_of[list] ?? blank.readings_of[list];
      if (!Array.isArray(theirs) || JSON.stringify([...theirs].sort()) !== JSON.stringify([...blank.readings_of[list]].sort())) {
        throw `its ${list} are others than this card's: it was made from another layout of this vehicle`;
      }
    }
    const values = new Map();
    const section = (name, item, given, own) => {
      if (!isStructure(given)) throw `“${name}” is not written as in a record`;
      for (const [field, found] of Object.entries(given)) {
        const known = fields.find((f) => f.section === name && f.item === item && f.field === field);
        if (known) values.set(known, readValue(known, found));
        else if (!(field in own)) throw `it has a field “${field}” in “${name}” that this card does not know`;
        else if (JSON.stringify(found) !== JSON.stringify(own[field]) && !Array.isArray(found)) {
          throw `its ${field} in “${name}” is ${JSON.stringify(found)}, not ${JSON.stringify(own[field])}`;
        }
      }
    };
    for (const [name, given] of Object.entries(file)) {
      if (name === "format" || name === "card") continue;
      if (!(name in blank)) throw `it has a part “${name}” that this card does not know`;
      if (!Array.isArray(blank[name])) section(name, null, given, blank[name]);
      else if (!Array.isArray(given)) throw `“${name}” is not a list`;
      else for (const one of given) {
        const item = blank[name].findIndex((known) => known.name === one?.name);
        if (item < 0) throw `it has “${one?.name}” among its ${name}, which this vehicle has not`;
        section(name, item, one, blank[name][item]);
      }
    }
    const isMarks = (list) => list === undefined || list === null || (Array.isArray(list) && list.every((mark) => typeof mark === "string"));
    if (file.card && !(isMarks(file.card.ticked) && isMarks(file.card.counted))) throw "its ticks and counts are not written as in a record";
    const isOlder = Boolean(file.card?.plan) && !(Number(file.card.amounts ?? 1) >= Number(data.amounts));
    return { values, card: file.card?.plan === data.plan ? file.card : null, hasCard: Boolean(file.card), isOlder };
  }

  function readValue(field, found) {
    if (found !== null && typeof found !== "string") throw `${field.name} is ${JSON.stringify(found)}: not a text`;
    let text = found?.trim() ?? null;
    const letters = (word) => word.toLowerCase().replace(/[^a-z0-9]/g, "");
    if (text && !field.words && /^(not_checked|not checked|null|none)$/i.test(text) && (field.quantity || field.element.type === "date")) text = null;
    if (text && field.words) text = field.words.find((word) => letters(word) === letters(text)) ?? text;
    const wrong = refusal(field, text);
    if (wrong) throw `${field.name}, “${text}”: ${wrong}`;
    return text;
  }

  async function open(file) {
    let read;
    try {
      if (file.size > LARGEST_FILE) throw "it is too large for a record";
      read = readFile(await file.text());
    } catch (problem) {
      const why = typeof problem === "string" ? problem : "it cannot be read";
      tell(`Not opened: ${file.name}: ${why}. Nothing on this page was changed.`);
      return;
    }
    const isClean = JSON.stringify(state()) === untouched;
    if (!isClean && !(await ask(`Open ${file.name}? It takes the place of what is on this page. Save the file first if you still need that.`, "Open it"))) {
      tell("Not opened. Nothing on this page was changed.");
      return;
    }
    clear();
    restoreMarks(read.card ?? {});
    for (const [field, text] of read.values) take(field, text);
    check();
    refresh();
    tell(read.card || !read.hasCard
      ? `Opened ${file.name}.`
      : `Opened the readings of ${file.name}. Its ticks and counts ${read.isOlder
        ? "were made from an older plan, whose amounts are others,"
        : "belong to another plan of this vehicle"} and were left out.`);
  }

  function ask(question, yes) {
    const dialog = byId("ask");
    byId("question").textContent = question;
    byId("yes").textContent = yes;
    dialog.returnValue = "";
    dialog.showModal();
    return new Promise((resolve) => dialog.addEventListener("close", () => resolve(dialog.returnValue === "yes"), { once: true }));
  }

  byId("yes").addEventListener("click", () => byId("ask").close("yes"));
  byId("no").addEventListener("click", () => byId("ask").close(""));
  byId("save").addEventListener("click", save);
  byId("print").addEventListener("click", () => window.print());
  byId("open").addEventListener("click", () => byId("file").click());
  byId("file").addEventListener("change", async (event) => {
    const [file] = event.target.files;
    if (file) await open(file);
    event.target.value = "";
  });
  byId("again").addEventListener("click", async () => {
    if (!(await ask("Start again? Every tick, count and reading on this page is cleared. Save the file first if you still need it.", "Clear everything"))) return;
    clear();
    check();
    refresh();
    tell("Cleared. The card is blank again.");
  });

  document.documentElement.classList.add("scripted");
  restore();
  refresh();
})();
