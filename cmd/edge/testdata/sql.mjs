// A worker for tests alone: it runs the statement that it is sent, on the SQLite of an
// object or on D1, and tells the rows.
export class Database {
  constructor(ctx) { this.ctx = ctx; }
  async fetch(request) {
    const { statement, parameters } = await request.json();
    try {
      const rows = [...this.ctx.storage.sql.exec(statement, ...parameters.map(given)).raw()];
      return Response.json({ rows: rows.map((row) => row.map(told)) });
    } catch (e) {
      return Response.json({ error: String(e) });
    }
  }
}

export default {
  async fetch(request, env) {
    const { pathname } = new URL(request.url);
    if (pathname === "/object") {
      return env.DATABASES.get(env.DATABASES.idFromName("one")).fetch(request);
    }
    const { statement, parameters } = await request.json();
    try {
      const rows = await env.D1.prepare(statement).bind(...parameters.map(given)).raw();
      return Response.json({ rows: rows.map((row) => row.map(told)) });
    } catch (e) {
      return Response.json({ error: String(e) });
    }
  },
};

// given and told carry blobs as base64 in JSON.
function given(value) {
  return typeof value === "object" && value ? Uint8Array.from(atob(value.blob), (c) => c.charCodeAt(0)) : value;
}
function told(value) {
  if (typeof value !== "object" || !value) return value;
  let text = "";
  for (const byte of new Uint8Array(value)) text += String.fromCharCode(byte);
  return { blob: btoa(text) };
}
