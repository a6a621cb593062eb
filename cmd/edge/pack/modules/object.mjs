// Hosts the program in an object: one of a workshop, or of a box.
import "./wasm_exec.js";
import program from "./app.wasm";

const mostMessage = (1 << 20) + (64 << 10);
const mostListeners = 16;
const patience = 5000; // milliseconds, for a device to show its credentials

export class Workshop {
  constructor(ctx, env) {
    this.ctx = ctx;
    this.env = env;
    ctx.blockConcurrencyWhile(() => this.start());
  }

  // start starts the program, which stays for as long as the object does.
  start() {
    this.binding = {};
    return new Promise((ready) => {
      const go = new globalThis.Go();
      const importing = { ...go.importObject, workers: { ready() {} } };
      go.run(new WebAssembly.Instance(program, importing), {
        role: "object",
        env: this.env,
        binding: this.binding,
        ready,
        sql: (statement, parameters) => this.run(statement, parameters),
        hint: (head) => this.hint(head),
      });
    });
  }

  run(statement, parameters) {
    try {
      return { rows: [...this.ctx.storage.sql.exec(statement, ...parameters).raw()] };
    } catch (e) {
      return { error: String(e) };
    }
  }

  async fetch(request) {
    if (request.headers.get("Upgrade") === "websocket") return this.listen();
    const body = await read(request);
    if (!body) return new Response("the message is too long\n", { status: 413 });
    const { method, headers } = request;
    const { pathname } = new URL(request.url);
    const given = [headers.get("Authorization") ?? "", headers.get("Content-Encoding") ?? ""];
    try {
      const answer = await this.binding.answer(method, pathname, ...given, body);
      return new Response(answer.body, { status: answer.status, headers: answer.headers });
    } catch (e) {
      console.error(pathname, String(e));
      return new Response("the server cannot answer now: try again\n", { status: 503, headers: { "Retry-After": "2" } });
    }
  }

  // listen takes a device that wants to hear of changes. The object may be put to
  // sleep while it listens.
  listen() {
    const { 0: theirs, 1: ours } = new WebSocketPair();
    this.ctx.acceptWebSocket(ours);
    if (this.ctx.getWebSockets().length > mostListeners) ours.close(1013, "too many devices of the workshop are listening");
    else setTimeout(() => this.admitted(ours) || ours.close(1008, "no such workshop, or not its token"), patience);
    return new Response(null, { status: 101, webSocket: theirs });
  }

  admitted(socket) {
    return socket.deserializeAttachment() === "admitted";
  }

  async webSocketMessage(socket, message) {
    if (this.admitted(socket)) return;
    if (typeof message === "string" && message.length <= 256 && (await this.binding.admit(message))) {
      socket.serializeAttachment("admitted");
    } else {
      socket.close(1008, "no such workshop, or not its token");
    }
  }

  hint(head) {
    for (const socket of this.ctx.getWebSockets()) if (this.admitted(socket)) socket.send(head);
  }
}

// read reads a body, or nothing of one that is too long.
async function read(request) {
  if (Number(request.headers.get("Content-Length") ?? 0) > mostMessage) return null;
  const parts = [];
  let size = 0;
  for await (const part of request.body ?? []) {
    size += part.length;
    if (size > mostMessage) return null;
    parts.push(part);
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
