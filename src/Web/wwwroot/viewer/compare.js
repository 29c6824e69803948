// Pictures side by side that zoom and move together, at the same scale of the pieces.
import { closer, deepZoom } from './zoom.js';

const list = document.querySelector('[data-compare]');
if (list && window.OpenSeadragon) {
  const views = [...list.querySelectorAll('[data-info]')].map((item) => {
    for (const still of item.querySelectorAll('[data-still]')) still.toggleAttribute('hidden', true);
    const deep = item.querySelector('[data-deep]');
    deep.hidden = false;
    const [x, y, width, height] = item.dataset.crop.split(' ').map(Number);
    return {
      viewer: deepZoom(deep, item.dataset.info, t('{0}. Arrow keys move all pictures, plus and minus bring them closer and further.', item.dataset.name)),
      crop: { x, y, width, height }, unit: Number(item.dataset.unit), open: false,
    };
  });
  let following = false;

  // The place looked at in units from the middle of what is compared, and pixels of the screen to a unit.
  const state = ({ viewer, crop, unit }) => {
    const { viewport } = viewer;
    const middle = viewport.viewportToImageCoordinates(viewport.getCenter(false));
    return { x: (middle.x - crop.x - crop.width / 2) / unit, y: (middle.y - crop.y - crop.height / 2) / unit, scale: viewport.viewportToImageZoom(viewport.getZoom(false)) * unit };
  };
  const put = ({ viewer, crop, unit }, { x, y, scale }, at) => {
    const { viewport } = viewer;
    viewport.zoomTo(viewport.imageToViewportZoom(scale / unit), null, at);
    viewport.panTo(viewport.imageToViewportCoordinates(crop.x + crop.width / 2 + x * unit, crop.y + crop.height / 2 + y * unit), at);
  };
  const follow = (leader) => {
    if (following || views.some((v) => !v.open)) return;
    following = true;
    const now = state(leader);
    for (const view of views) if (view !== leader) put(view, now, false);
    following = false;
  };

  // The one that needs the most room says how large all are.
  const home = () => {
    const scales = views.map(({ viewer, crop, unit }) => {
      const size = viewer.viewport.getContainerSize();
      return Math.min(size.x / (crop.width / unit), size.y / (crop.height / unit));
    });
    following = true;
    for (const view of views) put(view, { x: 0, y: 0, scale: Math.min(...scales) }, true);
    following = false;
  };

  for (const view of views) {
    view.viewer.addHandler('open', () => {
      view.open = true;
      closer(view.viewer, view.crop);
      if (views.every((v) => v.open)) {
        home();
        list.dataset.ready = '';
      }
    });
    for (const event of ['zoom', 'pan']) view.viewer.addHandler(event, () => follow(view));
  }

  const tools = document.querySelector('[data-tools]');
  tools.hidden = false;
  const looks = { in: (v) => v.viewport.zoomBy(1.6), out: (v) => v.viewport.zoomBy(1 / 1.6), whole: home };
  for (const look of tools.querySelectorAll('[data-look]')) look.addEventListener('click', () => looks[look.dataset.look](views[0].viewer));
}
