// A wire between the page and the server that can be cut: the page's address is this, whatever happens behind it.
import net from 'node:net';

export class Wire {
  #open = new Set();
  #cut = false;

  static async to(port) {
    const wire = new Wire();
    wire.server = net.createServer((near) => {
      if (wire.#cut) {
        near.destroy();
        return;
      }
      const far = net.connect(port, '127.0.0.1');
      for (const end of [near, far]) {
        wire.#open.add(end);
        end.on('close', () => wire.#open.delete(end));
        end.on('error', () => {});
      }
      near.pipe(far).pipe(near);
      near.on('close', () => far.destroy());
      far.on('close', () => near.destroy());
    });
    await new Promise((resolve) => wire.server.listen(0, '127.0.0.1', resolve));
    wire.address = `http://127.0.0.1:${wire.server.address().port}`;
    return wire;
  }

  /** What is on its way is lost, and nothing gets through until it is mended. */
  cut() {
    this.#cut = true;
    for (const end of this.#open) end.destroy();
  }

  mend() {
    this.#cut = false;
  }

  close() {
    this.cut();
    this.server.close();
  }
}
