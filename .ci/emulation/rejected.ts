// What a type check of calls must reject; that it does shows that it checks.
// Each line marked has an error, or the compiler fails on the mark.
import type { ApiMethods } from "@grammyjs/types";

type Call<M extends keyof ApiMethods<unknown>> = NonNullable<Parameters<ApiMethods<unknown>[M]>[0]>;

// @ts-expect-error a message needs a text
export const wordless: Call<"sendMessage"> = { chat_id: 12 };
// @ts-expect-error no such parameter
export const misnamed: Call<"sendMessage"> = { chat_id: 12, text: "Cut 14-3/4 in", thread_id: 7 };
// @ts-expect-error a number
export const quoted: Call<"sendMessage"> = { chat_id: 12, text: "Cut 14-3/4 in", message_thread_id: "7" };
// @ts-expect-error the question is named message_id
export const unasked: Call<"sendMessage"> = { chat_id: 12, text: "Cut 14-3/4 in", reply_parameters: { message: 7 } };
// @ts-expect-error no such mode
export const marked: Call<"sendMessage"> = { chat_id: 12, text: "Cut 14-3/4 in", parse_mode: "Text" };
// @ts-expect-error no such kind of update
export const asked: Call<"getUpdates"> = { allowed_updates: ["messages"] };
// @ts-expect-error a command has a description
export const bare: Call<"setMyCommands"> = { commands: [{ command: "help" }] };
