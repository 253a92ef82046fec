/** Two people over a day and a night, to be written over. The dates are counted from the day of the import. */
const TEMPLATE = [
  "date,user id,role,from,to",
  "today,user.one,technician,06:00,14:30",
  "today,user.two,charge provider,07:00,17:00",
  "today,user.two,provider,17:00,07:00",
  "today+1,user.one,technician,06:00,14:30",
  "",
].join("\r\n");

/** The roster's template. Nothing in it is anybody's data. */
export function GET(): Response {
  return new Response(TEMPLATE, {
    headers: { "content-type": "text/csv; charset=utf-8", "content-disposition": 'attachment; filename="duty.csv"' },
  });
}
