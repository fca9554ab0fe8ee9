"use strict";
// A job card at work: it asks, keeps and writes. Steps are in steps.js, fields in readings.js, what a file may hold in file.js,
// the jobs that the browser keeps in jobs.js. Everything it knows of the plan stands in the page.
(() => {
  const byId = (id) => document.getElementById(id);
  const make = (name, properties, ...children) => {
    const element = Object.assign(document.createElement(name), properties);
    element.append(...children);
    return element;
  };
  const data = document.querySelector("main").dataset;
  const blank = JSON.parse(data.record);
  const vehicle = blank.readings_of.name;
  const { fields, write, take, check, refusal } = Readings;
  const { ticks, steps, isCounted, measure, takeBack, showStep, due, isLevelKept, stopLines, marks, restoreMarks } = Steps;
  const registrationField = fields.find((field) => field.section === "readings_of" && field.field === "registration");
  const registration = () => write(registrationField) ?? "";
  const say = (text) => { byId("said").textContent = text; };
  const tell = (text) => { byId("told").textContent = text; };

  // ---- Steps

  // A stop rule has a button of its own: who tops up has not looked for air.
  function showBanner(over, pending) {
    const banner = byId("banner");
    const parts = [
      [over.map((step) => `STOP AND LOOK: ${step.give_up_ml} ml reached at ${step.name}. Find where air enters.`),
        "Found and mended where air enters: go on", () => { for (const step of over) step.givenUp = step.pushed; }],
      [pending.flatMap(({ step, stops }) => stopLines(step, stops)),
        "Seen to: go on", () => { for (const { step, stops } of pending) for (const nth of stops) step.seen.set(nth, step.position); }],
    ].filter(([lines]) => lines.length > 0);
    const shown = JSON.stringify(parts);
    if (banner.dataset.shown === shown) return;
    banner.dataset.shown = shown;
    const hadFocus = banner.contains(document.activeElement);
    banner.replaceChildren(...parts.flatMap(([lines, text, done]) => {
      const button = make("button", { type: "button", textContent: text });
      button.addEventListener("click", () => { done(); refresh(); });
      return [...lines.map((line) => make("p", { textContent: line })), button];
    }));
    if (!hadFocus) return;
    (banner.querySelector("button") ?? lastCounter ?? steps[0].count).focus();
  }

  let lastCounter = null;

  function refresh({ isTyping = false, typed = null } = {}) {
    measure();
    if (!isTyping) takeBack(typed);
    const next = steps.find((step) => !step.tick.checked && step.end !== "left_out");
    // A second bleed has no turn before the routine.
    const isHeld = (step) => ticks.some((tick) => !tick.checked && step.waits_for.includes(tick.dataset.tick));
    const waiting = next && isHeld(next) ? next : null;
    const current = waiting ? undefined : next;
    const isReady = ticks.filter((tick) => tick.dataset.tick.startsWith("before ")).every((tick) => tick.checked);
    const pending = [];
    for (const step of steps) {
      showStep(step, step === current);
      const stops = due(step, step === current, step === steps[0] ? isReady : true);
      if (stops.length > 0) pending.push({ step, stops });
    }
    showBanner(steps.filter((step) => step.isOver && step.givenUp === 0), pending);
    const done = (list) => {
      const of = ticks.filter((tick) => tick.dataset.tick.startsWith(`${list} `));
      return `${of.filter((tick) => tick.checked).length} of ${of.length}`;
    };
    const leftOut = steps.filter((step) => step.end === "left_out").map((step) => step.number);
    const now = current ? `Now step ${current.number}: ${current.name}. `
      : waiting ? `Now after, up to the routine; then step ${waiting.number}: ${waiting.name}. `
        : leftOut.length > 0 ? "" : "All steps ticked. ";
    const left = leftOut.length > 0 ? `LEFT OUT: ${leftOut.join(", ")}. ` : "";
    const link = byId("now");
    const after = !waiting && byId("after-second") ? "#after-second" : "#after";
    link.textContent = current ? `Now: step ${current.number}` : "Now: after";
    link.setAttribute("href", current ? `#${current.element.id}` : after);
    byId("progress").textContent = `${now}${left}Ticked: before ${done("before")}, steps ${done("step")}, after ${done("after")}.`;
    byId("registration").textContent = registration() || "____________";
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
      refresh({ isTyping: true });
    });
    for (const input of [step.count, ...step.readings]) {
      input.addEventListener("input", () => refresh({ isTyping: true }));
      input.addEventListener("change", () => { if (!(Number(input.value) >= 0)) input.value = ""; refresh({ typed: step }); });
    }
    step.tick.addEventListener("change", () => finish(step));
  }
  for (const tick of ticks) {
    if (!steps.some((step) => step.tick === tick)) tick.addEventListener("change", () => refresh());
  }

  // One step a screen, for a hand that works; the whole list is one touch away.
  let walked = 0;

  function walk(nth) {
    const isWalking = nth !== null;
    walked = nth ?? walked;
    const step = steps[walked].element;
    const shown = isWalking ? [step, step.closest("section")] : [];
    for (const element of document.querySelectorAll(".step, main > *")) element.classList.toggle("shown", shown.includes(element));
    document.documentElement.classList.toggle("walking", isWalking);
    byId("back").disabled = walked === 0;
    byId("next").disabled = walked === steps.length - 1;
    if (isWalking) window.scrollTo(0, 0);
    else step.scrollIntoView();
  }

  byId("one").addEventListener("click", () => walk(Math.max(0, steps.findIndex((step) => !step.tick.checked))));
  byId("back").addEventListener("click", () => walk(walked - 1));
  byId("next").addEventListener("click", () => walk(walked + 1));
  byId("list").addEventListener("click", () => walk(null));

  // A step that is ticked and was not counted is asked about once.
  async function finish(step) {
    step.end = null;
    if (step.tick.checked && isCounted(step)) step.end = "counted";
    else if (step.tick.checked) {
      step.tick.checked = false;
      const end = await choose(`Step ${step.number}, ${step.name}: nothing was counted and no jar was read. How was it done?`, [
        ["by_jar", `By the jar: it held ${step.planned} ml and ran clear`],
        ["by_strokes", "By strokes, counted elsewhere, until it ran clear"],
        ["left_out", "Not bled: left out"],
        ["no", "Not yet"],
      ].filter(([value]) => value !== "by_strokes" || step.unit !== "ml"));
      step.end = end === "no" || end === "" ? null : end;
      step.tick.checked = end === "by_jar" || end === "by_strokes";
    }
    refresh();
  }

  // ---- Keeping: the browser's own memory, so that a reload loses nothing

  function state() {
    return {
      ticked: ticks.filter((tick) => tick.checked).map((tick) => tick.dataset.tick),
      counted: marks(),
      ends: steps.map((step) => step.end),
      told: steps.map((step) => step.told ?? null),
      fields: fields.map((field) => [field.id, field.radios ? write(field) : field.element.value, field.unit?.value]),
    };
  }

  // What a person reads of a job when it is over.
  function lines() {
    const ended = { counted: "done", by_jar: "done by the jar", by_strokes: "done by strokes", left_out: "LEFT OUT" };
    const of = (step) => `Step ${step.number}, ${step.name}: ${ended[step.end] ?? "open"}, ${step.heard}`;
    const readings = fields.filter((field) => write(field) !== null).map((field) => `${field.name}: ${write(field)}`);
    return [...steps.map(of), ...readings];
  }

  let job = null; // the one that this page works on, once that is known

  function keep() {
    if (!job) return;
    const now = state();
    if (job.lines.length === 0 && JSON.stringify(now) === untouched) return;
    Object.assign(job, { registration: registration(), touched: new Date().toISOString(), state: now, lines: lines() });
    if (fields.every((field) => refusal(field, write(field)) === "") && Readings.clashes(write).size === 0) job.record = record();
    const text = Jobs.keep(job) ? "" : "This browser keeps nothing of this card: save the file before you close the page.";
    if (byId("unkept").textContent !== text) byId("unkept").textContent = text;
  }

  let untouched = ""; // the page as it was made

  function clear() {
    restoreMarks({});
    for (const field of fields) take(field, (field.item === null ? blank[field.section] : blank[field.section][field.item])[field.field]);
  }

  function restore(kept) {
    restoreMarks(kept);
    steps.forEach((step, nth) => { step.told = kept.told?.[nth] ?? null; });
    for (const [id, text, unit] of kept.fields ?? []) {
      const field = fields.find((known) => known.id === id);
      if (!field) continue;
      if (field.radios) take(field, text);
      else field.element.value = text;
      if (field.unit && unit) field.unit.value = unit;
    }
  }

  // ---- Jobs: this one or a new one

  // The jobs that are open and may be of the vehicle in front of the reader.
  const openJobs = () => Jobs.of(vehicle).filter((one) => one.closed === "" && Jobs.mayBeOne(one.registration, registration()));

  function close(one) {
    Jobs.keep({ ...one, closed: new Date().toISOString() });
  }

  async function begin() {
    for (let open = openJobs(); open.length > 0; open = openJobs()) {
      const isOurs = (one) => one.plan === data.plan;
      open.sort((a, b) => isOurs(b) - isOurs(a));
      const answers = open.flatMap((one, nth) => [
        isOurs(one) ? Jobs.title(one) : `${Jobs.title(one)}. It was begun by another plan, in ${one.page}`,
        [`go-${nth}`, isOurs(one) ? "Go on with it" : "Keep it: this card waits"],
        [`close-${nth}`, "Close it: it stays to be read"],
      ]);
      const question = `Jobs of “${vehicle}” are open. Is it one of these?`;
      const answer = await choose(question, [...answers, "Another vehicle of this kind", ["new", "Begin a new job"]], true);
      const [, verb, nth] = /^(go|close)-(\d+)$/.exec(answer) ?? [];
      const one = open[nth];
      if (verb === "close") close(one);
      else if (verb === "go" && !isOurs(one)) return lock(`The job is kept: ${Jobs.title(one)}. Go on with it in the card ${one.page}. This card waits.`);
      else if (verb === "go") {
        try {
          restore(one.state);
        } catch {
          clear(); // What is there is not ours.
        }
        job = one;
        break;
      } else break;
    }
    job ??= Jobs.begin(vehicle, data.plan);
    document.documentElement.classList.add("begun");
    check();
    refresh();
    showJobs();
  }

  // Nothing is entered while another job is kept, or another window works on this one.
  function lock(text) {
    job = null;
    document.documentElement.classList.remove("begun");
    document.querySelector("main").inert = true;
    byId("banner").replaceChildren();
    byId("locked").replaceChildren(make("p", { textContent: text }), make("button", { type: "button", textContent: "Choose again", onclick: () => location.reload() }));
  }

  window.addEventListener("storage", (event) => {
    if (job && event.key === job.key) lock("Another window works on this job. Go on there, or choose again here.");
  });

  // Every other job of this vehicle, to read, save and forget.
  function showJobs() {
    const others = Jobs.of(vehicle).filter((one) => one.key !== job.key);
    byId("jobs").replaceChildren(...others.map((one) => {
      const button = (text, act) => make("button", { type: "button", textContent: text, onclick: act });
      const buttons = [button("Forget it", async () => {
        if ((await choose(`Forget this job? ${Jobs.title(one)}. Nothing of it is left in this browser.`, [["no", "Leave it"], ["yes", "Forget it"]])) !== "yes") return;
        Jobs.forget(one);
        showJobs();
      })];
      if (one.record) buttons.unshift(button("Save its file", () => download(one.record)));
      return make("details", {},
        make("summary", { textContent: `${one.closed ? "Closed" : "Open"}: ${Jobs.title(one)}` }),
        make("ul", {}, ...one.lines.map((line) => make("li", { textContent: line }))),
        make("div", { className: "buttons" }, ...buttons));
    }));
  }

  // ---- Files

  function record() {
    const result = structuredClone(blank);
    for (const field of fields) {
      const part = field.item === null ? result[field.section] : result[field.section][field.item];
      const isText = typeof part[field.field] === "string" && !field.words && !field.quantity;
      part[field.field] = write(field) ?? (isText ? "" : null);
    }
    steps.forEach((step, nth) => {
      result.steps[nth].done = step.end;
      // Two screws at a time: what the worse one got counts for both.
      const pushed = step.end === "left_out" ? 0 : Math.min(step.pushed, step.least * step.planned);
      result.steps[nth].pushed = step.end || isCounted(step) ? `${Math.round(pushed * 10) / 10} ml` : null;
      result.steps[nth].level_kept = step.end && step.end !== "left_out" ? (isLevelKept(step) ? "yes" : "no") : null;
      // What a file said of a step that nobody touched since stays as it was said.
      if (step.told?.mark === markOf(step)) Object.assign(result.steps[nth], step.told.values);
    });
    for (const tick of ticks) {
      if (tick.dataset.task !== undefined) result.tasks[tick.dataset.task].done = tick.checked ? "yes" : null;
    }
    const { ticked, counted } = state();
    result.card = { plan: data.plan, amounts: data.amounts, ticked, counted };
    return `${JSON.stringify(result, null, 4)}\n`;
  }

  // All that somebody may change at a step.
  function markOf(step) {
    return JSON.stringify([step.end, step.tick.checked, step.count.value, [...step.seen], step.readings.map((input) => input.value)]);
  }

  function download(text) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    const plain = vehicle.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").slice(0, 60).replace(/^-|-$/g, "");
    link.download = `${plain || "vehicle"}-card.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    tell(`Saved as ${link.download} among the downloads.`);
  }

  function save() {
    const [first] = check();
    if (!first) {
      download(record());
      return;
    }
    tell(`Not saved: ${first.name} ${refusal(first, write(first)) || "contradicts another reading"}. Correct it or clear it.`);
    (first.radios?.[0] ?? first.element).focus();
  }

  // Puts the steps and tasks of a file of this plan where they belong; what the marks of a card say stands already.
  function takeWork({ steps: theirSteps, tasks }) {
    theirSteps.forEach(({ name, done = null, pushed = null, level_kept = null }) => {
      const step = steps[blank.steps.findIndex((known) => known.name === name)];
      step.end = done;
      step.tick.checked = done !== null && done !== "left_out";
      step.told = { values: { done, pushed, level_kept } };
    });
    measure();
    takeBack(null);
    for (const step of steps) if (step.told) step.told.mark = markOf(step);
    for (const tick of ticks) if (tick.dataset.task !== undefined) tick.checked = false;
    for (const { name, done = null, by = null, date = null } of tasks) {
      const item = blank.tasks.findIndex((known) => known.name === name);
      for (const tick of ticks) if (tick.dataset.task === String(item)) tick.checked = done === "yes";
      for (const field of fields) if (field.section === "tasks" && field.item === item) take(field, { done, by, date }[field.field]);
    }
  }

  async function open(file) {
    let read;
    try {
      read = RecordFile.read(await RecordFile.text(file), registration());
    } catch (problem) {
      const why = typeof problem === "string" ? problem : "it cannot be read";
      tell(`Not opened: ${file.name}: ${why}. Nothing on this page was changed.`);
      return;
    }
    const isClean = JSON.stringify(state()) === untouched;
    const question = `Open ${file.name}? It takes the place of what is on this page. Save the file first if you still need that.`;
    if (!isClean && (await choose(question, [["no", "Leave it"], ["yes", "Open it"]])) !== "yes") {
      tell("Not opened. Nothing on this page was changed.");
      return;
    }
    clear();
    restoreMarks(read.marks);
    for (const [field, text] of read.values) take(field, text);
    if (read.work) takeWork(read.work);
    check();
    refresh();
    tell(read.isOther
      ? `Opened the readings of ${file.name}. Its ticks and counts ${read.isOlder
        ? "were made from an older plan, whose amounts are others,"
        : "belong to another plan of this vehicle"} and were left out.`
      : `Opened ${file.name}.`);
  }

  // Asks a question by its answers, each a value with its words below what it is about, and gives the value; empty where it
  // was put away.
  async function choose(question, answers, isNeeded = false) {
    const dialog = byId("ask");
    byId("question").textContent = question;
    byId("answers").replaceChildren(...answers.map((answer) => {
      if (typeof answer === "string") return make("p", { textContent: answer });
      const [id, textContent] = answer;
      return make("button", { type: "button", id, textContent, onclick: () => dialog.close(id) });
    }));
    do {
      dialog.returnValue = "";
      dialog.showModal();
      await new Promise((resolve) => dialog.addEventListener("close", resolve, { once: true }));
    } while (isNeeded && dialog.returnValue === "");
    return dialog.returnValue;
  }

  byId("save").addEventListener("click", save);
  byId("print").addEventListener("click", () => window.print());
  byId("open").addEventListener("click", () => byId("file").click());
  byId("file").addEventListener("change", async (event) => {
    const [file] = event.target.files;
    if (file) await open(file);
    event.target.value = "";
  });
  byId("again").addEventListener("click", async () => {
    const question = "Close this job? What is on this page is kept below, to read and to save, and the card is blank for a new one.";
    if ((await choose(question, [["no", "Leave it"], ["yes", "Close it"]])) !== "yes") return;
    if (job.lines.length > 0) close(job);
    clear();
    job = Jobs.begin(vehicle, data.plan);
    check();
    refresh();
    showJobs();
    tell("Closed. The card is blank again.");
  });

  Readings.whenChanged(() => refresh());
  document.documentElement.classList.add("scripted");
  clear();
  untouched = JSON.stringify(state());
  refresh();
  begin();
})();
