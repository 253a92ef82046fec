import { ensureBuilt } from "./ensure-built";
import { runMain } from "./main";

runMain(() => ensureBuilt((line) => console.log(line)));
