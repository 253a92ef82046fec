import { type NextRequest, NextResponse } from "next/server";
import { actorOfDevice, DEVICE_COOKIE, DEVICE_COOKIE_SECONDS } from "@/lib/auth/device";
import { systemClock } from "@/lib/live/clock";

export const dynamic = "force-dynamic";

/** A wall's way in: its code, opened once, becomes a cookie that no script can read. A code that does not hold leads to the page that asks for one. */
export async function GET(request: NextRequest, { params }: { params: Promise<{ code: string }> }): Promise<Response> {
  const { code } = await params;
  const device = await actorOfDevice(code, () => systemClock().now());
  const response = new NextResponse(null, {
    status: 303,
    headers: {
      location: device ? "/wall" : "/wall/enter?code=unknown",
      "cache-control": "no-store",
      "referrer-policy": "no-referrer",
    },
  });
  if (device)
    response.cookies.set(DEVICE_COOKIE, code, {
      httpOnly: true,
      sameSite: "lax",
      path: "/",
      secure: request.headers.get("x-forwarded-proto") === "https",
      maxAge: DEVICE_COOKIE_SECONDS,
    });
  return response;
}
