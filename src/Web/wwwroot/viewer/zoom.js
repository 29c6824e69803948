// Deep zoom over a IIIF image: what every view of ours has in common.
const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;

// The library would add a look of its own to the page, which the page's policy refuses; it leaves that when it finds one
// there, and what it finds need be no style but only be called so.
const look = document.createElementNS('urn:x-heirloom-archive', 'style');
look.setAttribute('data-openseadragon-mobile-css', '');
document.head.append(look);

/** A viewer in an element, with a name for those who can't see it. */
export function deepZoom(inside, info, name) {
  const viewer = OpenSeadragon({
    element: inside, tileSources: info, showNavigationControl: false, drawer: 'canvas', maxZoomPixelRatio: 4, visibilityRatio: 0.3,
    animationTime: calm ? 0 : 0.5, springStiffness: 8, gestureSettingsMouse: { clickToZoom: false }, gestureSettingsTouch: { clickToZoom: false }, gestureSettingsPen: { clickToZoom: false },
  });
  viewer.canvas.setAttribute('role', 'application');
  viewer.canvas.setAttribute('aria-label', name);
  return viewer;
}

/** Brings a box of the picture (in its pixels) into view. */
export function closer(viewer, box) {
  viewer.viewport.fitBounds(viewer.viewport.imageToViewportRectangle(box.x, box.y, box.width, box.height), calm);
}
