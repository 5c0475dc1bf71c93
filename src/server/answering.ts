import type { Hono } from "hono";
import type { Fetching } from "./listen.ts";
import type { BenchEnv, RequestContext } from "./request-context.ts";

/** An app that knows when all it was asked is answered. */
export class Answering implements Fetching {
  readonly #app: Hono<BenchEnv>;
  #underWay = 0;
  #waiting: (() => void)[] = [];

  constructor(app: Hono<BenchEnv>) {
    this.#app = app;
  }

  async fetch(request: Request, context: RequestContext): Promise<Response> {
    this.#underWay++;
    try {
      return await this.#app.fetch(request, context);
    } finally {
      if (--this.#underWay === 0) for (const done of this.#waiting.splice(0)) done();
    }
  }

  /** Resolves when no request is under way, or after `most` ms. */
  answered(most: number): Promise<void> {
    if (this.#underWay === 0) return Promise.resolve();
    return new Promise((done) => {
      const timer = setTimeout(done, most);
      this.#waiting.push(() => {
        clearTimeout(timer);
        done();
      });
    });
  }
}
