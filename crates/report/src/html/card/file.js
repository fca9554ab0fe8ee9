"use strict";
// A file given to the card, by the rules of the program: what that refuses is refused here.
const RecordFile = (() => {
  const FORMAT = "1";
  const LARGEST = 4 * 1024 * 1024;
  const TICK = /^(before|step|after) [1-9]\d{0,3}$/;
  const COUNT = /^step [1-9]\d{0,3}( stops| give up| (jar|stop) [1-9]\d{0,3})?: (\d+\.?\d*|\.\d+)$/;
  const data = document.querySelector("main").dataset;
  const blank = JSON.parse(data.record);
  const isNames = (list) => Array.isArray(list) && list.every((name) => typeof name === "string");
  const isStructure = (part) => typeof part === "object" && part !== null && !Array.isArray(part);
  const has = (structure, name) => Object.hasOwn(structure, name);

  // JSON keeps the last of two fields with one name and says nothing, and takes 1.0 for 1; a record has neither.
  function checkNames(text) {
    const open = []; // the names of every structure around; null for a list
    let before = "";
    let isFormat = false;
    for (const [token] of text.matchAll(/"(?:[^"\\]|\\.)*"|[{}[\],:]|[^\s{}[\],:"]+/g)) {
      const names = open.at(-1);
      if (isFormat && token !== FORMAT) throw `the format number is ${token}, this card reads ${FORMAT}`;
      isFormat = false;
      if (token === "{") open.push(new Set());
      else if (token === "[") open.push(null);
      else if (token === "}" || token === "]") open.pop();
      else if (token === ":" && names) {
        const name = JSON.parse(before);
        if (names.has(name)) throw `the field “${name}” is given twice: keep one of them`;
        names.add(name);
        isFormat = open.length === 1 && name === "format";
      }
      before = token;
    }
  }

  function parse(text) {
    const body = text.trim();
    if (body.startsWith("(") || body.startsWith("//")) {
      throw "this is RON; make JSON of it with: bleedwright readings FILE --format record-json";
    }
    let file;
    try {
      file = JSON.parse(body);
    } catch (error) {
      throw `this is not JSON, or only a part of a file (${error.message})`;
    }
    if (!isStructure(file) || !isStructure(file.readings_of)) throw "this is not a record of readings";
    if (!has(file, "format")) throw "the format number is missing";
    checkNames(body);
    return file;
  }

  // Whether two lists hold the same names, in whatever order.
  function isSame(theirs, ours) {
    const sorted = (list) => JSON.stringify([...list].sort());
    return Array.isArray(theirs) && sorted(theirs) === sorted(ours);
  }

  function checkVehicle(vehicle, registration) {
    if (vehicle.name !== blank.readings_of.name) throw `it belongs to “${vehicle.name}”, this card to “${blank.readings_of.name}”`;
    const theirs = vehicle.registration ?? "";
    if (typeof theirs !== "string") throw "its registration is not a text";
    if (!Jobs.mayBeOne(theirs, registration)) throw `it belongs to the registration “${theirs}”, this card to “${registration}”`;
    for (const list of ["controls", "brakes", "screws", "compartments"]) {
      if (!isSame(vehicle[list], blank.readings_of[list])) {
        throw `its ${list} are others than this card's: it was made for another job, or from another layout of this vehicle`;
      }
    }
    for (const list of ["steps", "tasks"]) {
      if (has(vehicle, list) && !isNames(vehicle[list])) throw `its ${list} are not a list of names`;
    }
  }

  function checkCard(card) {
    if (card === undefined) return;
    if (!isStructure(card)) throw "“card” is not written as in a record";
    for (const [name, value] of Object.entries(card)) {
      const isList = name === "ticked" || name === "counted";
      if (!isList && name !== "plan" && name !== "amounts") throw `it has a field “${name}” in “card” that this card does not know`;
      if (value === null) continue;
      if (!isList && typeof value !== "string") throw `“${name}” in “card” is not a text`;
      if (!isList) continue;
      const isMark = (mark) => typeof mark === "string" && (name === "ticked" ? TICK : COUNT).test(mark) && !(Number(mark.split(": ")[1]) > 1e6);
      if (!Array.isArray(value) || !value.every(isMark)) throw "its ticks and counts are not written as in a record";
    }
  }

  // The values of one structure, each put under its field; `own` is what the blank record has there.
  function take(values, section, item, given, own) {
    if (!isStructure(given)) throw `“${section}” is not written as in a record`;
    if (section === "brakes" && !given.kind) throw `the brake “${given.name}” has no kind`;
    for (const [name, found] of Object.entries(given)) {
      if (!has(own, name)) throw `it has a field “${name}” in “${section}” that this card does not know`;
      const field = Readings.fields.find((f) => f.section === section && f.item === item && f.field === name);
      if (field) values.set(field, Readings.read(field, found));
      else if (Array.isArray(own[name])) {
        if (!isNames(found)) throw `its ${name} in “${section}” are not a list of names`;
      } else if (JSON.stringify(found) !== JSON.stringify(own[name])) {
        throw `its ${name} in “${section}” is ${JSON.stringify(found)}, not ${JSON.stringify(own[name])}`;
      }
    }
  }

  // One item for each name of a list; none may stand there twice.
  function items(list, given, each) {
    if (!Array.isArray(given)) throw `“${list}” is not a list`;
    const seen = new Set();
    for (const one of given) {
      const item = blank[list].findIndex((known) => known.name === one?.name);
      if (item < 0) throw `it has “${one?.name}” among its ${list}, which this card has not`;
      if (seen.has(item)) throw `“${one.name}” stands in its ${list} twice`;
      seen.add(item);
      each(item, one);
    }
  }

  // The steps and tasks of a file, by the names that its own lists have.
  function work(file) {
    const { ends, kinds, answers, volume } = JSON.parse(data.work);
    const known = {
      steps: { screws: null, wanted: { quantity: volume }, give_up: { quantity: volume }, done: { words: ends }, pushed: { quantity: volume }, level_kept: { words: answers } },
      tasks: { kind: { words: kinds }, done: { words: answers }, by: { longest: 2000 }, date: { isDay: true } },
    };
    const readItem = (list, one) => {
      if (!isStructure(one)) throw `“${list}” is not written as in a record`;
      const item = { name: one.name };
      for (const [name, found] of Object.entries(one)) {
        if (name === "name") continue;
        if (!has(known[list], name)) throw `it has a field “${name}” in “${list}” that this card does not know`;
        const kind = known[list][name];
        if (kind) item[name] = Readings.read({ name: `${one.name} ${name}`, ...kind }, found);
        else if (!isNames(found)) throw `its ${name} in “${list}” are not a list of names`;
      }
      return item;
    };
    return Object.fromEntries(Object.keys(known).map((list) => {
      const given = file[list] ?? [];
      if (!Array.isArray(given)) throw `“${list}” is not a list`;
      const seen = new Set();
      return [list, given.map((one) => {
        const name = one?.name;
        if (!(file.readings_of[list] ?? []).includes(name)) throw `it has “${name}” among its ${list}, which its vehicle has not`;
        if (seen.has(name)) throw `“${name}” stands in its ${list} twice`;
        seen.add(name);
        return readItem(list, one);
      })];
    }));
  }

  // What a file gives to this card; throws a sentence where it is not for it.
  function read(text, registration) {
    const file = parse(text);
    checkVehicle(file.readings_of, registration);
    checkCard(file.card);
    const values = new Map();
    for (const [name, given] of Object.entries(file)) {
      if (["format", "card", "steps", "tasks"].includes(name)) continue;
      if (!has(blank, name)) throw `it has a part “${name}” that this card does not know`;
      if (Array.isArray(blank[name])) items(name, given, (item, one) => take(values, name, item, one, blank[name][item]));
      else take(values, name, null, given, blank[name]);
    }
    for (const [field, wrong] of Readings.clashes((field) => values.get(field) ?? null)) throw `${field.name}: ${wrong}`;
    const done = work(file);
    const isOurs = file.card?.plan === data.plan;
    const isOlder = Boolean(file.card?.plan) && !(Number(file.card.amounts ?? 1) >= Number(data.amounts));
    // Steps of another plan may have the same numbers and names; only the plan's fingerprint tells.
    const hasWork = [...done.steps, ...done.tasks].some((item) => item.done);
    const isOther = !isOurs && (Boolean(file.card?.plan) || hasWork);
    return { values, work: isOurs ? done : null, marks: isOurs ? file.card : {}, isOther, isOlder };
  }

  // The text of a file; a record is UTF-8.
  async function text(file) {
    if (file.size > LARGEST) throw "it is too large for a record";
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
    } catch {
      throw "it is not a text";
    }
  }

  return { read, text };
})();
