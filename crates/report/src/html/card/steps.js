"use strict";
// The steps of a job card: what was counted, what that makes of the fluid, and what must be seen to.
const Steps = (() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const rounded = (ml) => String(Math.round(ml));

  const ticks = all("[data-tick]");
  const steps = all("[data-step]").map((element) => ({
    element,
    ...JSON.parse(element.dataset.step),
    count: element.querySelector(".count input"),
    readings: all(".jar input", element),
    tick: element.querySelector("[data-tick]"),
    fluid: element.querySelector(".fluid"),
    seen: new Map(), // stops that were seen to, by number, each with how far the step was
    end: null, // how it was finished, in the words of a record
    isEntered: false, // somebody is at its counter
    givenUp: 0, // what had been pushed when somebody looked for air
  }));
  const isCounted = (step) => step.counted > 0 || step.readings.some((input) => input.value !== "");

  // Fluid of every step, from its jars where they were read, else from what was counted. A jar fills from step to step.
  function measure() {
    const marks = {};
    for (const step of steps) {
      const counted = Math.max(0, Number(step.count.value) || 0);
      const planned = step.jars.reduce((sum, jar) => sum + jar.push_ml, 0);
      step.counted = counted;
      step.pushed = 0;
      step.least = Infinity; // the share of what it wants that the worst of its screws got
      step.note = "";
      step.jars.forEach((jar, nth) => {
        const before = jar.is_emptied ? 0 : marks[jar.jar] ?? 0;
        const text = step.readings[nth].value;
        let pushed = (counted / step.wanted) * jar.push_ml;
        if (text !== "" && Number(text) >= 0) {
          const mark = Number(text);
          step.note = " by the jar";
          // Nobody empties a jar by a little: a mark that is hardly lower was misread.
          const isEmptied = mark < before / 2;
          if (isEmptied) step.note += `, taken as emptied: it held ${rounded(before)} ml before this step`;
          else if (mark < before) step.note += `, LESS than the ${rounded(before)} ml before this step: read it again`;
          pushed = isEmptied ? mark : Math.max(0, mark - before);
          marks[jar.jar] = Math.max(mark, isEmptied ? 0 : before);
        } else {
          if (counted === 0 && step.tick.checked && step.end !== "counted") {
            pushed = jar.push_ml;
            step.note = " by the plan, not counted";
          }
          marks[jar.jar] = before + pushed;
        }
        step.pushed += pushed;
        step.least = Math.min(step.least, pushed / jar.push_ml);
      });
      step.planned = planned;
      // More fluid than strokes say has left the reservoir too: the stop that comes first counts.
      step.position = Math.max(counted, Math.floor((step.pushed / planned) * step.wanted + 1e-9));
      step.isFull = step.pushed >= planned - 0.05 && step.least >= 1 - 0.05 / planned;
      step.isOver = step.pushed >= step.give_up_ml;
    }
  }

  // What lies above a count that was corrected was not seen to. Where the count itself was typed anew, what was seen at the
  // wrong one was seen at this.
  function takeBack(typed) {
    for (const step of steps) {
      for (const nth of [...step.seen.keys()]) {
        if (step.stops[nth].after > step.position) step.seen.delete(nth);
        else if (step === typed) step.seen.set(nth, Math.min(step.seen.get(nth), step.position));
      }
      if (!step.isOver) step.givenUp = 0;
    }
  }

  function showStep(step, isCurrent) {
    const { element, fluid, wanted } = step;
    if (isCurrent) element.setAttribute("aria-current", "step");
    else element.removeAttribute("aria-current");
    const isLeftOut = step.end === "left_out";
    element.querySelector(".now").textContent = step.tick.checked ? "✓ done" : isLeftOut ? "LEFT OUT" : isCurrent ? "NOW" : "";
    let text = `Fluid: ${rounded(step.pushed)} of ${step.planned} ml${step.note}.`;
    if (step.isOver) text += ` STOP at ${step.give_up_ml} ml: find where air enters.`;
    else if (step.tick.checked && !step.isFull) text += " NOT FINISHED: less than the plan wants.";
    else if (step.isFull && !step.tick.checked) text += " Amount reached: go on until it runs clear, then shut.";
    fluid.textContent = text;
    fluid.classList.toggle("full", step.isFull && !step.isOver);
    fluid.classList.toggle("over", step.isOver);
    element.querySelector(".less").disabled = step.counted === 0;
    const unit = step.unit === "ml" ? " ml" : "";
    step.heard = `${step.counted}${unit} of ${wanted}${unit}, ${rounded(step.pushed)} ml`;
  }

  // What must be seen to before the next stroke, by number: a tick does not see to it. A stop before the first stroke is
  // due once its step has its turn.
  function due(step, isCurrent, hasBegun) {
    return [...step.stops.keys()].filter((nth) => {
      const { after } = step.stops[nth];
      const isBegun = after > 0 || step.position > 0 || step.isEntered || (isCurrent && hasBegun);
      return !step.seen.has(nth) && after <= step.position && isBegun;
    });
  }

  // Whether the level was kept: every stop so far was seen to before the next of its compartment was due.
  function isLevelKept(step) {
    return step.stops.every(({ after, compartment }, nth) => {
      if (after > step.position) return true;
      if (!step.seen.has(nth)) return false;
      if (!isCounted(step)) return true;
      const at = step.seen.get(nth);
      const next = step.stops.find((stop, other) => other > nth && stop.compartment === compartment);
      // A touch on the counter counts its first stroke before the banner can be read.
      if (after === 0 && at > (step.unit === "ml" ? 10 : 1)) return false;
      return next === undefined || at < next.after;
    });
  }

  // The stops of one step in a line for each compartment.
  function stopLines(step, numbers) {
    const stops = numbers.map((nth) => step.stops[nth]);
    return [...new Set(stops.map((stop) => stop.compartment))].map((compartment) => {
      const theirs = stops.filter((stop) => stop.compartment === compartment);
      const places = theirs.map((stop) => stop.after).filter((after) => after > 0);
      const unit = step.unit === "ml" ? "ml" : places.join() === "1" ? "stroke" : "strokes";
      const after = places.length > 0 ? [`after ${places.join(", ")} ${unit}`] : [];
      const place = [...(theirs[0].after === 0 ? ["before the first"] : []), ...after].join(", ");
      const past = step.position > Math.max(0, ...places) && places.length > 0 ? `, now ${step.position}` : "";
      return `${theirs[0].text} ${compartment}: ${place}${past}. Step ${step.number}, ${step.name}.`;
    });
  }

  // What was counted and seen to, as a record has it.
  function marks() {
    return steps.flatMap((step) => [
      ...(Number(step.count.value) > 0 ? [`step ${step.number}: ${Number(step.count.value)}`] : []),
      ...[...step.seen].map(([nth, position]) => `step ${step.number} stop ${nth + 1}: ${position}`),
      ...(step.givenUp > 0 ? [`step ${step.number} give up: ${rounded(step.givenUp)}`] : []),
      ...step.readings.flatMap((input, nth) =>
        input.value === "" ? [] : [`step ${step.number} jar ${nth + 1}: ${Number(input.value)}`]),
    ]);
  }

  function restoreMarks({ ticked, counted, ends }) {
    for (const tick of ticks) tick.checked = (ticked ?? []).includes(tick.dataset.tick);
    const marks = new Map((counted ?? []).map((line) => line.split(": ")));
    steps.forEach((step, index) => {
      const of = (name) => marks.get(`step ${step.number}${name}`);
      step.count.value = of("") ?? 0;
      step.readings.forEach((input, nth) => { input.value = of(` jar ${nth + 1}`) ?? ""; });
      step.seen = new Map([...step.stops.keys()].filter((nth) => of(` stop ${nth + 1}`) !== undefined)
        .map((nth) => [nth, Number(of(` stop ${nth + 1}`))]));
      step.givenUp = Number(of(" give up") ?? 0);
      step.end = ends?.[index] ?? null;
      step.told = null;
      step.isEntered = false;
    });
  }

  return { ticks, steps, isCounted, measure, takeBack, showStep, due, isLevelKept, stopLines, marks, restoreMarks };
})();
