// The first to see a request: answers the files of the page, passes listeners to
// their object, and everything else to the program.
import front from "./worker.mjs";
import site from "./site.mjs";

export { Workshop } from "./object.mjs";

const messages = "/sync/1/";

export default {
  async fetch(request, env, ctx) {
    const url = new URL(request.url);
    if (url.pathname === messages + "hints") return listen(url, request, env);
    if (url.pathname.startsWith(messages)) return front.fetch(request, env, ctx);
    return file(url, request, env);
  },
};

// listen finds the object by the name of the workshop in the address. It asks for the
// token by itself.
function listen(url, request, env) {
  const name = url.search.slice(1);
  const origin = request.headers.get("Origin");
  if (!/^[0-9a-f]{32}$/.test(name)) return new Response("no such workshop\n", { status: 400 });
  if (origin && new URL(origin).host !== url.host) return new Response("from another page\n", { status: 403 });
  return env.WORKSHOPS.get(env.WORKSHOPS.idFromName(name)).fetch(request);
}

// file answers one file, pressed as it was built.
async function file(url, request, env) {
  const headers = new Headers(site.headers);
  headers.set("Strict-Transport-Security", "max-age=31536000; includeSubDomains");
  if (request.method !== "GET" && request.method !== "HEAD") {
    headers.set("Allow", "GET, HEAD");
    return new Response("only GET and HEAD are answered here\n", { status: 405, headers });
  }
  const found = Object.hasOwn(site.files, url.pathname) ? site.files[url.pathname] : undefined;
  if (!found) return new Response("there is nothing at this address\n", { status: 404, headers });
  headers.set("Cache-Control", "no-cache");
  headers.set("ETag", `"${found.hash}"`);
  headers.set("Vary", "Accept-Encoding");
  if (tags(request).includes(`"${found.hash}"`)) return new Response(null, { status: 304, headers });
  const takes = request.headers.get("Accept-Encoding") ?? "";
  const form = found.forms.find(({ encoding }) => !encoding || takes.includes(encoding)) ?? found.forms[0];
  headers.set("Content-Type", found.type);
  if (form.encoding) headers.set("Content-Encoding", form.encoding);
  const answer = await env.ASSETS.fetch(new Request(new URL("/" + form.name, url)));
  if (answer.status !== 200) return new Response("the file is missing here\n", { status: 500, headers });
  return new Response(request.method === "HEAD" ? null : answer.body, { headers, encodeBody: form.encoding ? "manual" : "automatic" });
}

function tags(request) {
  return (request.headers.get("If-None-Match") ?? "").split(",").map((tag) => tag.trim().replace(/^W\//, ""));
}
