"use strict";
// Shows one step of every side at a time, and marks in the pictures what it flushed.
document.documentElement.classList.add("scripted");
const slider = document.getElementById("step");
const shown = document.getElementById("shown");
const last = Number(slider.max);
const sides = [...document.querySelectorAll(".side")].map((side) => ({
  scenes: [...side.querySelectorAll(".scene")],
  drawn: [...side.querySelectorAll("svg [data-kind][data-name]")],
}));

function show(step) {
  const titles = sides.map(({ scenes, drawn }) => {
    // A side with fewer steps stays at its end.
    const scene = scenes[Math.min(step, scenes.length - 1)];
    for (const other of scenes) other.hidden = other !== scene;
    const states = JSON.parse(scene.dataset.states);
    for (const group of drawn) {
      const state = states[`${group.dataset.kind} ${group.dataset.name}`];
      if (state) group.dataset.state = state;
    }
    return scene.querySelector("h3").textContent;
  });
  slider.value = step;
  const text = step === 0 ? "Before the first step" : titles.join("; ");
  slider.setAttribute("aria-valuetext", text);
  shown.textContent = text;
  document.getElementById("back").disabled = step === 0;
  document.getElementById("on").disabled = step === last;
}

const move = (by) => show(Math.max(0, Math.min(last, Number(slider.value) + by)));
slider.addEventListener("input", () => show(Number(slider.value)));
document.getElementById("back").addEventListener("click", () => move(-1));
document.getElementById("on").addEventListener("click", () => move(1));
document.addEventListener("keydown", (event) => {
  // The slider moves by itself, and a picture scrolls.
  if (event.target !== document.body || event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.key === "ArrowRight") move(1);
  else if (event.key === "ArrowLeft") move(-1);
});
// Whatever is open for one step stays open for the next.
for (const { scenes } of sides) {
  const details = scenes.map((scene) => scene.querySelector("details"));
  for (const one of details) {
    one.addEventListener("toggle", () => {
      for (const other of details) other.open = one.open;
    });
  }
}
show(0);
