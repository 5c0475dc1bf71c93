import { createServer, type Server, type Socket } from "node:net";

/** A simulated instrument: a TCP server that sends what it is told to whoever listens. */
export class Instrument {
  private readonly server: Server;
  private readonly listeners = new Set<Socket>();
  port = 0;

  constructor() {
    this.server = createServer((socket) => {
      this.listeners.add(socket);
      socket.on("close", () => this.listeners.delete(socket));
      socket.on("error", () => this.listeners.delete(socket));
    });
  }

  async start(): Promise<this> {
    await new Promise<void>((done) => this.server.listen(0, "127.0.0.1", done));
    this.port = (this.server.address() as { port: number }).port;
    return this;
  }

  /** Waits until someone listens. */
  async heard(): Promise<void> {
    while (this.listeners.size === 0) await new Promise((done) => setTimeout(done, 5));
  }

  async send(text: string): Promise<void> {
    for (const socket of this.listeners) await new Promise((done) => socket.write(text, done));
  }

  /** Hangs up on everybody. */
  drop(): void {
    for (const socket of this.listeners) socket.destroy();
    this.listeners.clear();
  }

  async stop(): Promise<void> {
    this.drop();
    await new Promise((done) => this.server.close(done));
  }
}
