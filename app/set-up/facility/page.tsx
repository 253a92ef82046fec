import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { Said } from "@/app/_parts/said.client";
import { PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import { readSession } from "@/lib/queries/session";
import { readSite } from "@/lib/queries/set-up";
import { FacilityForm } from "./facility-form.client";
import { SiteForm } from "./site-form.client";

export const metadata: Metadata = { title: "Facility" };

/** The facilities this person belongs to, and one more. */
export default async function FacilityPage() {
  const actor = await requirePerson("/set-up/facility");
  const { facility, facilities, mayDo } = await readSession(actor);
  const site = await readSite(actor);
  return (
    <>
      <PageHeading title="Facilities" sub={<Said>Each keeps its own rooms, limits, history and clock.</Said>} />
      <div className={styles.columns}>
        <Panel title={facility.name}>
          <SiteForm key={facility.id} site={site} />
        </Panel>
        <div className={styles.stack}>
          <Panel title="Yours">
            <ul>
              {facilities.map(({ id, name }) => (
                <li key={id}>
                  {name}
                  {id === facility.id ? (
                    <span className={styles.soft}>
                      {" "}
                      · you are here · {facility.timeZone} · {facility.scheme} · {facility.pressureUnit}
                    </span>
                  ) : null}
                </li>
              ))}
            </ul>
          </Panel>
          {mayDo.includes("add-facility") ? (
            <Panel title="Add a facility">
              <FacilityForm />
            </Panel>
          ) : null}
        </div>
      </div>
    </>
  );
}
