"use strict";
// The fields of the record on a job card: what stands in them, and whether a record takes it.
const Readings = (() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const data = document.querySelector("main").dataset;
  const quantities = JSON.parse(data.quantities);
  const blankWords = JSON.parse(data.blank);

  // The fields of the form. `write` gives the value for the record, `take` brings one back.
  const fields = all("[data-field]").map((element) => {
    const group = element.closest("fieldset").dataset;
    const field = { element, name: element.dataset.name, field: element.dataset.field, section: group.section };
    field.item = group.item === undefined ? null : Number(group.item);
    field.id = element.dataset.words ?? element.id;
    field.isDay = element.type === "date";
    field.longest = element.maxLength;
    if (element.dataset.words) {
      field.radios = all("input", element);
      field.words = field.radios.map((radio) => radio.value);
    } else if (element.tagName === "SELECT") {
      field.words = [...element.options].map((option) => option.value);
    } else if (element.dataset.quantity) {
      field.quantity = quantities[element.dataset.quantity];
      field.unit = document.querySelector(`[data-unit-of="${CSS.escape(element.id)}"]`);
    }
    return field;
  });

  // A number, a fraction of whole numbers, or both: 21.3, 13/16, 1 3/16.
  const NUMBER = String.raw`(\d+[ -]+\d+\s*\/\s*\d+|\d+\s*\/\s*\d+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)`;
  const MEASURED = new RegExp(`^${NUMBER}([^\\d±+][^±+]*)?(?:(?:±|\\+\\/-|\\+-)\\s*${NUMBER}([^\\d±+].*)?)?$`);

  function value(text) {
    const [whole, part] = text.includes("/") ? text.split(/[ -]+(?=\d+\s*\/)/).concat("0").slice(0, 2) : [text, "0"];
    const one = (piece) => piece.split("/").map(Number).reduce((above, below) => above / below);
    return one(whole) + one(part);
  }

  // A quantity as it is written, such as "21.3 mm ± 0.1 mm": its values in the first unit, or what is wrong with it.
  function quantity(text, { units, least, most, allowed }) {
    const plain = (name) => name.trim().toLowerCase().replace(/\s+/g, " ");
    const unitOf = (name) => units.find((unit) => unit.names.some((known) => plain(known) === plain(name)));
    const parts = MEASURED.exec(text.trim());
    if (!parts) return { wrong: `not understood: write a number and a unit, such as 21.3 ${units[0].names[0]}` };
    const [, number, ownUnit = "", spread, spreadUnit = ""] = parts;
    const isShare = spreadUnit.trim() === "%" && units[0].names[0] !== "%";
    const unit = unitOf(plain(ownUnit) === "" && !isShare ? spreadUnit : ownUnit);
    const other = spread === undefined || isShare || plain(spreadUnit) === "" ? unit : unitOf(spreadUnit);
    if (!unit || !other) return { wrong: `the unit is missing or not known: ${units.map((u) => u.names[0]).join(", ")}` };
    const nominal = value(number) * unit.scale + unit.zero;
    let by = 0;
    if (spread !== undefined) by = isShare ? value(number) * unit.scale * value(spread) / 100 : value(spread) * other.scale;
    if (!Number.isFinite(nominal + by)) return { wrong: "not a number" };
    const slack = 1e-9 * most; // Bounds in other units are rounded.
    const isTooMuch = nominal + by > most - slack && nominal + by > most;
    const low = nominal === 0 && least === 0 ? 0 : nominal - by; // Nothing, read to a millimetre, is nothing to one millimetre.
    if (low < least || isTooMuch) {
      return { wrong: `cannot be a reading: ${allowed}`, isNothing: nominal === 0 && !isTooMuch };
    }
    return { nominal, low };
  }

  function isDay(text) {
    const day = new Date(`${text}T00:00:00Z`);
    return /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
  }

  // What stands in a field, for the record; null where nothing does.
  function write(field) {
    if (field.radios) return field.radios.find((radio) => radio.checked)?.value || null;
    const text = field.element.value.trim();
    if (text === "") return null;
    if (!field.quantity) return text.toWellFormed?.() ?? text;
    return /[^\d\s.,/-]/.test(text) ? text : `${text} ${field.unit.value}`;
  }

  // Whether a value says that nobody looked, or that whoever wrote it was not sure.
  function isBlank(text) {
    return text.includes("?") || blankWords.includes(text.toLowerCase());
  }

  // The word that a text is, written as people do; nothing turns it round.
  function word(text, words) {
    const letters = (one) => one.toLowerCase().replace(/[^a-z0-9]/g, "");
    return /^[a-z0-9 _.-]*$/i.test(text) ? words.filter(Boolean).find((known) => letters(known) === letters(text)) : undefined;
  }

  // A value of a file as it is for a field; throws a sentence where a record does not take it.
  function read(field, found) {
    if (found === null) return null;
    if (typeof found !== "string") throw `${field.name} is ${JSON.stringify(found)}: not a text`;
    const isText = !field.words && !field.quantity && !field.isDay;
    const text = isText ? found : found.trim();
    if (!isText && isBlank(text) || field.isDay && text === "") return null;
    const value = field.words ? word(text, field.words) ?? text : text;
    const wrong = !isText && text === "" ? "nothing stands there" : refusal(field, value);
    // A least thickness of nothing is opened, as the program reads it, and then marked and not saved.
    const isKept = /^(disc|lining)_minimum$/.test(field.field) && quantity(value, field.quantity).isNothing;
    if (wrong && !isKept) throw `${field.name}, “${text}”: ${wrong}`;
    return value;
  }

  // Why a value cannot stand in a field; empty where it can.
  function refusal(field, text) {
    if (text === null || text === "") return "";
    if (field.quantity) return quantity(text, field.quantity).wrong ?? "";
    if (field.words) return field.words.includes(text) ? "" : `“${text}” is not known: ${field.words.filter(Boolean).join(", ")}`;
    if (field.isDay) return isDay(text) ? "" : `“${text}” is not a day such as 2026-11-25`;
    return [...text].length > field.longest ? `longer than ${field.longest} characters` : "";
  }

  function take(field, text) {
    if (field.radios) {
      for (const radio of field.radios) radio.checked = radio.value === (text ?? "");
      return;
    }
    field.element.value = text ?? "";
    if (!field.quantity) return;
    const units = [...field.unit.options].map((option) => option.value);
    const [, number, unit] = /^(\d+(?:\.\d+)?) (.+)$/.exec(text ?? "") ?? [];
    if (units.includes(unit)) [field.element.value, field.unit.value] = [number, unit];
  }

  function mark(field, wrong) {
    const id = `${field.id}-wrong`;
    document.getElementById(id)?.remove();
    field.element.toggleAttribute("aria-invalid", false);
    field.element.removeAttribute("aria-describedby");
    if (wrong === "") return;
    const text = Object.assign(document.createElement("span"), { id, className: "wrong", textContent: wrong });
    field.element.setAttribute("aria-invalid", "true");
    field.element.setAttribute("aria-describedby", id);
    field.element.closest(".field").append(text);
  }

  // The fields that contradict others, by the text of each, and why.
  function clashes(text) {
    const wrongs = new Map();
    for (const depressed of fields.filter((field) => field.field === "depressed")) {
      const free = fields.find((field) => field.field === "free" && field.item === depressed.item);
      const both = [free, depressed];
      if (both.some((field) => text(field) === null || refusal(field, text(field)))) continue;
      const [a, b] = both.map((field) => quantity(text(field), field.quantity));
      if (a.low <= 0) wrongs.set(free, "the free pedal stands on the floor: measure again");
      else if (b.nominal > a.nominal) wrongs.set(depressed, "farther from the floor than the free pedal: which is which?");
    }
    return wrongs;
  }

  // Marks every field that cannot stand in a record, and gives them.
  function check() {
    for (const { element } of fields.filter((field) => field.isDay)) {
      element.setAttribute("value", element.value); // Paper leaves an empty day blank, by its attribute.
    }
    const wrongs = new Map([...fields.map((field) => [field, refusal(field, write(field))]), ...clashes(write)]);
    for (const [field, wrong] of wrongs) mark(field, wrong);
    return fields.filter((field) => wrongs.get(field) !== "");
  }

  function whenChanged(keep) {
    for (const field of fields) {
      field.element.addEventListener("input", keep);
      for (const element of [field.element, field.unit].filter(Boolean)) {
        element.addEventListener("change", () => {
          if (field.quantity && /^\d+,\d+$/.test(field.element.value.trim())) {
            field.element.value = field.element.value.trim().replace(",", ".");
          }
          check();
          keep();
        });
      }
    }
  }

  return { fields, write, take, read, check, clashes, refusal, whenChanged };
})();
