/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { render } from 'preact';
import { droppedFiles } from './droppedFiles';
import { Page } from './Page';
import { PageState } from './PageState';
import './page.css';

const state = new PageState();
const begin = () => {
  render(<Page state={state} />, document.body);
  void state.begin();
};
// until it is loaded a browser that comes back puts what was in fields into those that now stand in their places
if (document.readyState === 'complete') begin();
else addEventListener('load', begin);

// files may be dropped anywhere
const { classList } = document.documentElement;
document.addEventListener('dragover', (event) => {
  if (!event.dataTransfer?.types.includes('Files')) return;
  event.preventDefault();
  classList.add('over');
});
document.addEventListener('dragleave', ({ relatedTarget }) => {
  if (relatedTarget === null) classList.remove('over');
});
document.addEventListener('drop', async (event) => {
  classList.remove('over');
  if (event.defaultPrevented || !event.dataTransfer?.types.includes('Files')) return;
  event.preventDefault();
  await state.open(await droppedFiles(event.dataTransfer));
});
