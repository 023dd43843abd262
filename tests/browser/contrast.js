// Returns every visible text whose contrast with what lies behind it is below WCAG 2.2, 1.4.3: 4.5 to 1, or 3 to 1
// for large text (24 px, or 18.66 px bold). Formula: w3c.github.io/wcag/guidelines/relative-luminance.html
() => {
  const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
  const known = new Map();
  const rgba = (css) => {
    if (!known.has(css)) {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = css;
      canvas.fillRect(0, 0, 1, 1);
      const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
      known.set(css, [r, g, b, a / 255]);
    }
    return known.get(css);
  };
  const over = (top, below, alpha) => [0, 1, 2].map((i) => top[i] * alpha + below[i] * (1 - alpha));
  const luminance = (colour) => {
    const [r, g, b] = colour.map((v) => v / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (element) => {
    const layers = [];
    for (let e = element; e; e = e.parentElement) layers.push(rgba(getComputedStyle(e).backgroundColor));
    return layers.reverse().reduce((below, layer) => over(layer, below, layer[3]), [255, 255, 255]);
  };
  const faint = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    const text = walker.currentNode.textContent.trim();
    if (!text || !element.checkVisibility({ opacityProperty: true, visibilityProperty: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(walker.currentNode);
    const box = range.getBoundingClientRect();
    if (box.width < 2 || box.height < 2 || box.right < 0 || box.left > innerWidth) continue;
    const style = getComputedStyle(element);
    let opacity = 1;
    for (let e = element; e; e = e.parentElement) opacity *= parseFloat(getComputedStyle(e).opacity);
    const ground = behind(element);
    const ink = rgba(style.color);
    const [light, dark] = [luminance(over(ink, ground, ink[3] * opacity)), luminance(ground)].sort((x, y) => y - x);
    const ratio = (light + 0.05) / (dark + 0.05);
    const size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && parseInt(style.fontWeight) >= 700);
    if (ratio < (large ? 3 : 4.5)) faint.push(`${ratio.toFixed(2)} to 1: ${element.tagName} ${element.className} "${text.slice(0, 30)}"`);
  }
  return faint;
}
