/**
 * Problems in sentences: what happened, and what to do. A part in square brackets needs a value
 * that the server may send along, and falls away without it.
 */
import type { ProblemCode } from "#contracts/problem-codes";

/** The problems in English. */
export const problemsEn: Readonly<Record<ProblemCode, string>> = {
  "invalid-request": "The request is not complete or not well formed. Check the entries.",
  "label-unreadable": "The label could not be read. Scan it again, or enter it by hand.",
  "label-incomplete": "The label does not say enough. Scan the other barcode on it as well.",
  "idempotency-key-missing":
    "The program sent a request without its key. Reload the page and try again.",
  "idempotency-key-reused":
    "The same key came with another request. Reload the page and enter it again.",
  "request-in-progress": "The same request is still being worked on. Wait a moment.",
  "not-signed-in": "Nobody is signed in here. Sign in and try again.",
  "wrong-credentials": "The name and the password or PIN do not match. Try again.",
  "locked-out":
    "Too many failed attempts. Wait[ {retryAfterSeconds|seconds}], then try again, or ask the " +
    "owner.",
  "not-allowed": "Your role may not do that. Ask somebody whose role may[: {roles}].",
  "foreign-origin":
    "The request came from another website and was refused. Open Tubule at its own address.",
  "demo-on-loopback-only":
    "The demonstration opens only on the computer it runs on. Open it there.",
  "not-found": "There is nothing here by that name. Go back and search for it.",
  "unknown-identifier":
    "This product is not in the catalogue. Register it from its label, then scan again.",
  "already-set-up": "This installation is already set up. Sign in instead.",
  "wrong-set-up-code":
    "The set-up code is not right. Read it again on the computer that Tubule runs on.",
  "expired-delivery":
    "This lot is past its use-by date[ of {useBy|date}]. Do not receive it; return it to the " +
    "supplier.",
  "withdrawn-delivery":
    "This lot is withdrawn[ ({reference})]. Do not receive it; set it apart and tell the office.",
  "use-by-conflict":
    "This lot is already here with another use-by date[, {stored|date}]. Compare the printed " +
    "labels.",
  "pack-conflict":
    "The labels of this pack contradict each other. Do not put it away; compare what is printed " +
    "on them.",
  "serial-taken":
    "This serial number is already registered on another container. Compare both labels.",
  "not-enough-stock":
    "There is not enough stock at that place[; {available} left]. Count it, or take from " +
    "another place.",
  "container-not-there":
    "The books have this container at another place[: {place}]. Look there, or move it first.",
  "already-opened": "This container is already open[, since {openedOn|date}]. Nothing to do.",
  "movement-already-reversed": "That movement is already reversed. Nothing to do.",
  "movement-not-reversible":
    "That movement cannot be reversed, as something later builds on it. Reverse that first.",
  "name-taken": "That name is taken. Choose another.",
  "identifier-taken":
    "This device identifier belongs to another product[: {product}]. Check the label and the " +
    "entry.",
  "product-changed":
    "Somebody changed this entry meanwhile. Reload it and enter your change again.",
  "technique-is-starter": "This is a common-practice default. Copy it, and make the copy your own.",
  "already-on-tray": "This container is already on the tray. Nothing to do.",
  "list-unreadable": "The list cannot be read as CSV or iCalendar. Mend it, or type the lines.",
  "tray-not-open":
    "This tray can no longer be changed. Swap a container at the chair, or plan a new tray.",
  "verdict-stops":
    "The check says stop. Remove the cause, or have a dentist pass it with a reason.",
  "not-overridable":
    "That cannot be passed: it is no stop any more, or nobody may pass it. Reload the " +
    "tray and look again.",
  "already-overridden": "A dentist has already passed this finding. Nothing to do.",
  "record-not-complete":
    "The record is not complete or not signed yet[; missing: {missing}]. Complete and sign it " +
    "first.",
  "step-required":
    "The step belongs to the technique and cannot be left out. Do it, or note why not.",
  "record-not-signed": "The record is still a draft. Sign it first; then it can be amended.",
  "record-superseded": "A later version stands in the place of this record. Open that one.",
  "record-signed": "The record is signed and cannot be changed. Write an amendment.",
  "seal-not-chosen":
    "It is not clear which seal the restoration is bonded to. Choose it for each tooth, or say " +
    "that there is none.",
  "waiting-unchanged": "The list of waiting teeth says so already. Reload it.",
  "not-on-tray": "That container is not on the tray. Scan it into the tray first.",
  "nothing-covered":
    "The notice names nothing that can be traced. Give a product, a lot or a serial number.",
  "withdrawal-closed": "The withdrawal is closed. Open a new one for anything further.",
  "excursion-settled":
    "This excursion is settled already; what was said of it stays. Enter a new one.",
  "nothing-to-print":
    "There is no label to print from there on. Choose an earlier label of the run.",
  "label-too-small":
    "The label is too small for its code, or its lot. Choose a larger size or another sheet.",
  "sheet-impossible":
    "Labels of these measures overlap, leave the page, or start beyond it. Measure the sheet again.",
  "printer-unreachable":
    "The printer[ at {host}] cannot be reached; nothing was printed. Check that it is switched " +
    "on, in this network, and at that address.",
  "print-outcome-unknown":
    "The connection to the printer broke off. Look which labels came out, and print from the " +
    "first one that is missing.",
  "payload-too-large": "That is too much at once. Send a smaller file or fewer lines.",
  "unsupported-media-type": "That kind of file is not accepted here. Choose another.",
  "too-many-requests":
    "Too many requests at once. Wait[ {retryAfterSeconds|seconds}], then try again.",
  "database-unavailable":
    "The database does not answer. Nothing was saved; wait a moment and try again.",
  "internal-error":
    "Something went wrong on our side. Nothing was saved; try again[ and give this number: " +
    "{requestId}].",
};
