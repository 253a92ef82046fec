import { startEmbedded } from "@/lib/cli/embedded/start";
import { migrate } from "@/lib/storage/migrate";
import { seedHistory } from "@/seed/index";
import { rmSync, readFileSync as rfs } from "node:fs"; import { execSync } from "node:child_process";
rmSync("/tmp/seedtry", {recursive:true, force:true});
const e = await startEmbedded({ folder: "/tmp/seedtry", port: 4351, fast: true });
try {
await migrate(e.ownerUrl);
let t=performance.now(); const c=process.cpuUsage();
await seedHistory({ databaseUrl: e.appUrl, ownerUrl: e.ownerUrl, now: Date.parse("2026-11-25T12:10:00Z"), days: Number(process.env.DAYS ?? 5), progress: (d,n,w)=>{ const kids = execSync(`ps --ppid ${e.pid} -o pid= `).toString().trim().split(/\s+/); let j=0; for (const k of kids) { try { const st=rfs(`/proc/${k}/stat`,"utf8").split(") ")[1].split(" "); j+=Number(st[11])+Number(st[12]); } catch {} } console.log(d,n,w,((performance.now()-t)/1000).toFixed(1), "pg cpu", j/100, "node", (process.cpuUsage(c).user+process.cpuUsage(c).system)/1e6); } });
const st=(await import("node:fs")).readFileSync(`/proc/${e.pid}/stat`,"utf8").split(" "); console.log("pg cpu s", (Number(st[15])+Number(st[16]))/100); const u=process.cpuUsage(c); console.log("total", (performance.now()-t)/1000, "cpu", (u.user+u.system)/1e6);
const pg = (await import("pg")).default; const cl = new pg.Client({connectionString: e.superuserUrl.replace(/\/[^/]*$/, "/"+new URL(e.appUrl).pathname.slice(1))}); await cl.connect();
for (const q of ["select body::json->'entry'->>'command' c, count(*) from history.leaf group by 1 order by 2 desc","select holder_kind, state, count(*) from derived.readiness group by 1,2", "select document->>'kind' k, document->>'title' t, count(*) from derived.task where closed_at is not null group by 1,2 order by 3 desc limit 40","select document->>'kind' k, document->>'severity' s, count(*) from derived.task where closed_at is null group by 1,2 order by 3 desc limit 40", "select contents, gas, store_id is null f, count(*) from cylinder group by 1,2,3"]) { console.table((await cl.query(q)).rows); }
await cl.end();
} finally { await e.stop(); }
