/** The floor: a counter and nothing else, registered for offline use as the app is. */
import { render } from 'preact';
import { useState } from 'preact/hooks';
import { Workbox } from 'workbox-window';

function Counter() {
  const [count, setCount] = useState(0);
  return (
    <button
      type="button"
      id="count"
      style={{ width: '100%', height: '90vh' }}
      onClick={() => setCount(count + 1)}
    >
      {count}
    </button>
  );
}

const root = document.getElementById('app');
if (root === null) throw new Error('got a page without #app, wanted index.html');
render(<Counter />, root);
void new Workbox('./sw.js').register();
