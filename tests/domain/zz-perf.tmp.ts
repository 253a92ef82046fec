import { judge } from "@/lib/domain/judge";
import { readyRoom } from "@/tests/support/ready-room";
import { unchecked, answered, gauge, cylinderOf } from "@/lib/domain/rules/examples";
const docs: Record<string,string> = {ready: JSON.stringify(readyRoom("US")), unchecked: JSON.stringify(unchecked(readyRoom("US"))), low: JSON.stringify(answered(readyRoom("US"), "cylinder-gauge", gauge(640), cylinderOf(readyRoom("US"), "oxygen")))};
for (const name of Object.keys(docs)) {
  const evs = Array.from({length: 2000}, () => JSON.parse(docs[name]!));
  for (let i=0;i<6000;i++) judge(evs[i%2000]);
  const t=process.cpuUsage(); let n=0;
  for (let r=0;r<10;r++) for (const e of evs) { judge(e); n++; }
  const u=process.cpuUsage(t); const s=(u.user+u.system)/1e6;
  console.log(name, Math.round(n/s), "rooms per cpu-second");
}
