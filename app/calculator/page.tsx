import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { currentPerson } from "@/app/_edge/page-actor";
import { Wordmark } from "@/app/_shell/wordmark";
import { Page, PageHeading } from "@/app/_ui/page";
import type { Calculation } from "@/lib/exchange/calculator/calculation";
import { CALCULATIONS, calculationNamed } from "@/lib/exchange/calculator/registry";
import { CalculationNav } from "./calculation-nav";
import { CalculationSelect } from "./calculation-select.client";
import { Calculator } from "./calculator.client";
import styles from "./calculator.module.css";
import { formModel } from "./form-model";

interface CalculatorPageProps {
  searchParams: Promise<{ calculation?: string | string[] }>;
}

async function chosen({ searchParams }: CalculatorPageProps): Promise<Calculation> {
  const { calculation = CALCULATIONS[0]?.name } = await searchParams;
  return (typeof calculation === "string" ? calculationNamed(calculation) : undefined) ?? notFound();
}

export async function generateMetadata(props: CalculatorPageProps): Promise<Metadata> {
  return { title: `${(await chosen(props)).title} · Calculator` };
}

/** Open to everybody: it holds nobody's data. */
export default async function CalculatorPage(props: CalculatorPageProps) {
  const calculation = await chosen(props);
  const { name, title, about, schema, example } = calculation;
  const choices = CALCULATIONS.map((one) => ({ name: one.name, title: one.title, group: one.group }));
  return (
    <Page>
      {(await currentPerson()) ? null : (
        <Link href="/" prefetch={false} className={styles.brand}>
          <Wordmark />
        </Link>
      )}
      <PageHeading title="Calculator" sub="A planning aid. Labels, the maker’s instructions and people decide." />
      <div className={styles.columns}>
        <div className={styles.places}>
          <CalculationSelect key={name} here={name} choices={choices} />
          <CalculationNav here={name} choices={choices} />
        </div>
        <Calculator key={name} name={name} title={title} about={about} fields={formModel(schema)} example={example} />
      </div>
    </Page>
  );
}
