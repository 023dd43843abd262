// Every control that is less than 44 by 44 pixels: `name: width x height`. Measured as WCAG 2.2 measures it (2.5.5):
// links that run in a line of text are left out, and a box with its words counts as one, since a tap on either ticks it.
() => [...document.querySelectorAll("a[href], button, input, select, textarea, summary, label[for]")].flatMap((control) => {
  const target = control.closest("label") || control;
  const style = getComputedStyle(target), box = target.getBoundingClientRect();
  const seen = target.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) && box.width > 1 && box.height > 1;
  const inText = control.matches("a") && style.display === "inline";
  if (!seen || inText || control.closest("[inert], [hidden]") || box.right <= 0 || box.left >= innerWidth) return [];
  const size = [box.width, box.height].map((each) => Math.round(each * 10) / 10);
  return Math.min(...size) < 44 ? [`${target.className || target.tagName} "${target.textContent.trim().slice(0, 30)}": ${size.join(" x ")}`] : [];
})
