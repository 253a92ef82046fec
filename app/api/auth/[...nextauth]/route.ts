import type { NextRequest } from "next/server";
import NextAuth from "next-auth";
import { authOptions } from "@/lib/auth/next-auth";

interface Params {
  readonly params: Promise<{ nextauth: string[] }>;
}

const handle = (request: NextRequest, context: Params) => NextAuth(request, context, authOptions());

export { handle as GET, handle as POST };
