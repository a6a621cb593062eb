// Runs a worker on this machine for as long as the input is open: node run.mjs
// OPTIONS, in the JSON that Miniflare takes. It prints the address.
import { Miniflare } from "miniflare";

const options = JSON.parse(process.argv[2]);
const miniflare = new Miniflare({ host: "127.0.0.1", port: 0, cf: false, ...options });
console.log(String(await miniflare.ready));
process.stdin.resume();
process.stdin.on("end", async () => {
  await miniflare.dispose();
  process.exit(0);
});
