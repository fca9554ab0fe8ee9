"use strict";
// The jobs that the browser keeps: each belongs to a vehicle, its registration and a plan, and none is lost by another.
const Jobs = (() => {
  const PREFIX = "bleedwright-job-";

  // Folded, so that one registration written in two ways is one.
  const plain = (registration) => registration.normalize("NFKC").toLowerCase().replace(/[\s.-]+/g, "");
  const isText = (value) => typeof value === "string";

  // Two that are given and differ are two vehicles; of a blank one nobody knows.
  function mayBeOne(one, other) {
    return plain(one) === "" || plain(other) === "" || plain(one) === plain(other);
  }

  // What lies under a key, where it is a job; else it is not ours and is left alone.
  function read(key) {
    try {
      const job = JSON.parse(localStorage.getItem(key));
      const texts = [job.vehicle, job.registration, job.plan, job.page, job.begun, job.touched];
      return texts.every(isText) && Array.isArray(job.lines) && job.lines.every(isText) && job.state ? { ...job, key } : null;
    } catch {
      return null;
    }
  }

  // Every job of a vehicle, the last touched first. A browser that keeps nothing has none.
  function of(vehicle) {
    try {
      return Object.keys(localStorage)
        .filter((key) => key.startsWith(PREFIX))
        .map(read)
        .filter((job) => job?.vehicle === vehicle)
        .sort((a, b) => (a.touched < b.touched ? 1 : -1));
    } catch {
      return [];
    }
  }

  function begin(vehicle, plan) {
    const now = new Date().toISOString();
    const page = decodeURIComponent(location.pathname.split("/").pop());
    return { key: `${PREFIX}${now}-${Math.random().toString(36).slice(2)}`, vehicle, registration: "", plan, page, begun: now,
      touched: now, closed: "", lines: [], state: {}, record: "" };
  }

  // Whether the browser took it.
  function keep(job) {
    try {
      localStorage.setItem(job.key, JSON.stringify(job));
      return true;
    } catch {
      return false;
    }
  }

  function forget(job) {
    localStorage.removeItem(job.key);
  }

  // The day and the minute here.
  function when(time) {
    const at = new Date(time);
    const two = (number) => String(number).padStart(2, "0");
    return Number.isNaN(at.getTime())
      ? "?"
      : `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${two(at.getHours())}:${two(at.getMinutes())}`;
  }

  function title(job) {
    const registration = job.registration.trim() === "" ? "no registration" : job.registration;
    return `${registration}, begun ${when(job.begun)}, last touched ${when(job.touched)}`;
  }

  return { of, begin, keep, forget, mayBeOne, title };
})();
