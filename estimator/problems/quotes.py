"""Problems of quotes and their register (9xx)."""

from __future__ import annotations

from estimator.problems.code import Concern, Level, ProblemCode

__all__ = [
    "DATED_AS_WRITTEN",
    "ENGINE_DIFFERS",
    "INCOMPLETE",
    "KEPT_ESTIMATE_CHANGED",
    "KEPT_ESTIMATE_GONE",
    "LAST_PRICE",
    "LINE_GONE",
    "LINE_TYPED_BELOW",
    "NOTHING_WON",
    "NOT_AN_ESTIMATE",
    "NOT_RECALCULATED",
    "NOT_WON",
    "NO_CUSTOMER",
    "NO_JOB_TITLE",
    "NO_NEXT_NUMBER",
    "NO_SHOP_NAME",
    "NO_SUCH_QUOTE",
    "NUMBER_OF_ANOTHER",
    "OLD_ENGINE",
    "OWN_FIGURE_LOST",
    "OWN_MINUTES_OF_OTHER_QUANTITY",
    "QUOTE_FILE_DIFFERS",
    "QUOTE_TWICE",
    "RATE_LEFT_BEHIND",
    "RECORD_CHANGED",
    "REGISTER_BUSY",
    "REGISTER_NOT_CHANGED",
    "REVISION_SENT",
    "ROW_GONE",
    "SAME_QUOTE",
    "SETUP_STANDS",
    "SHEET_SAYS_OTHERWISE",
    "TIP_PRICES_DIFFER",
    "TYPED_NOT_PRICED",
    "VALIDITY_PAST",
    "WON_ON_OTHER_FUEL",
    "WON_WITHOUT_DAY",
]

NOT_AN_ESTIMATE = ProblemCode(
    "E901",
    Level.ERROR,
    "the workbook is not an estimate that this program wrote",
    needs="the workbook that 'estimate' wrote, with its hidden sheet 'Record'",
    why="the job is priced again from what the sheet holds, with what you typed",
    do="run: kerfledger estimate YOUR_LIST, and type your figures in the workbook that it writes",
)
RECORD_CHANGED = ProblemCode(
    "E902",
    Level.ERROR,
    "the estimate's record cannot be read",
    needs="the hidden sheet 'Record' as it was written; {reason}",
    why="from a record that was changed another job would be priced than the one you see",
    do="run: kerfledger estimate YOUR_LIST --from THIS_FILE; what you typed on the lines is kept",
)
ROW_GONE = ProblemCode(
    "E903",
    Level.ERROR,
    "the row '{row}' is not on the sheet",
    needs="every row that the sheet was written with, its name as it was",
    why="a figure that is not found cannot count",
    do="undo the change, or run 'estimate' again",
)
LINE_GONE = ProblemCode(
    "E904",
    Level.ERROR,
    "line {line} is not where it was",
    needs="the lines as they were written, none taken out, put in or moved; found {found} there",
    why="your own minutes and prices would go to another line",
    do="undo the change; to take a line out or put one in, change the list and run: kerfledger estimate LIST --from "
    "THIS_FILE",
)
LINE_TYPED_BELOW = ProblemCode(
    "E905",
    Level.ERROR,
    "something is typed below the lines",
    needs="nothing there",
    why="a line typed here has no reading, no minutes and no price, and would be lost",
    do="put the line in the list and run: kerfledger estimate LIST --from THIS_FILE",
)
TIP_PRICES_DIFFER = ProblemCode(
    "E906",
    Level.ERROR,
    "one tip has two prices",
    needs="one price for tip {tip} in all its rows",
    why="its wear is charged by that price",
    do="type the same price in each row of the tip",
)
SHEET_SAYS_OTHERWISE = ProblemCode(
    "E907",
    Level.ERROR,
    "the sheet shows another figure than its typed cells give",
    needs="{needs}, by the typed cells",
    why="a worked cell was typed over, or a formula changed; the customer would not get the figure that you see",
    do="undo it; type minutes in 'My minutes' and a price in 'My price each'",
)
NOT_RECALCULATED = ProblemCode(
    "N908",
    Level.NOTE,
    "the workbook was saved by a program that does not calculate, so it shows old figures or none",
    why="the quote follows what is typed, not what is shown",
    concern=Concern.FORM,
)
ENGINE_DIFFERS = ProblemCode(
    "E909",
    Level.ERROR,
    "this version of the program prices the job differently",
    needs="the total that stands in the record, {before}; kerfledger {now} gives {after}",
    why="the estimate was written by kerfledger {engine}; the quote would not be what the sheet shows",
    do="run: kerfledger estimate YOUR_LIST --from THIS_FILE, and look at the new figures",
)
OLD_ENGINE = ProblemCode(
    "W918",
    Level.WARNING,
    "this version of the program would price the quote differently",
    needs="nothing: {before} was quoted and stands; kerfledger {now} gives {after}",
    why="the quote was priced by kerfledger {engine}; new lines are priced by this version",
    do="look at new prices before you send them",
    concern=Concern.TAKEN,
)
TYPED_NOT_PRICED = ProblemCode(
    "E919",
    Level.ERROR,
    "the job cannot be priced with what was typed",
    needs="figures that can be: {reason}",
    why="a figure far outside its range makes times or gas that cannot be",
    do="look at the figures that were changed: {changed}",
)
INCOMPLETE = ProblemCode(
    "E920",
    Level.ERROR,
    "rows of the list have no price ({count})",
    needs="a price for every row, or --partial",
    why="the customer would take the total for the whole job",
    do="put the rows right in the list and run: kerfledger estimate LIST --from THIS_FILE; or quote with --partial, "
    "and every total says INCOMPLETE",
)
KEPT_ESTIMATE_GONE = ProblemCode(
    "E921",
    Level.ERROR,
    "the estimate of {key} is not where the register says",
    needs="the copy that was kept when it was quoted",
    why="its rates, minutes and gas stand there",
    do="put the file back, or type its name in the column 'Estimate kept'",
)
QUOTE_TWICE = ProblemCode(
    "W910",
    Level.WARNING,
    "the quote stands in the register twice",
    needs="one row for each quote, revision and variation; row {first} is the same",
    why="the first row counts, and what was typed in the other is not seen",
    do="delete one of the two rows, or correct its revision",
)
NUMBER_OF_ANOTHER = ProblemCode(
    "E911",
    Level.ERROR,
    "the quote number belongs to another job",
    needs="a number that is free, or the number of an earlier quote for the same customer; {number} went to {customer}",
    why="a number that means two jobs brings the wrong price, gas and log together",
    do="leave --number away to get the next free one, {free}",
)
REVISION_SENT = ProblemCode(
    "E912",
    Level.ERROR,
    "this revision was sent already, and this quote differs from it",
    needs="a revision of its own; the next of {number} is {free}",
    why="what a customer has in hand is never changed afterwards",
    do="leave --revision away, or give {free}",
)
NO_NEXT_NUMBER = ProblemCode(
    "E913",
    Level.ERROR,
    "the next quote number cannot be told",
    needs="a last number in the register that ends in a digit, as Q-0031",
    why="the engine counts on from it, so that no number is used twice",
    do="give the number with --number",
)
NO_SUCH_QUOTE = ProblemCode(
    "E914",
    Level.ERROR,
    "the register has no such quote",
    needs="a number that stands there; the nearest is {nearest}",
    why="what was quoted is found by its number",
    do="correct the number, or the revision",
)
REGISTER_BUSY = ProblemCode(
    "E915",
    Level.ERROR,
    "another run is writing in the register",
    needs="one run at a time; this one has waited {seconds} seconds",
    why="two runs at once would give one number twice, or lose a row",
    do="wait for the other run to end, and run again",
)
REGISTER_NOT_CHANGED = ProblemCode(
    "E916",
    Level.ERROR,
    "the register cannot be written to as it is",
    needs="a workbook whose rows can be added to; {reason}",
    why="nothing was written, so that nothing in it is lost",
    do="put the register right in your spreadsheet program, save it as .xlsx, and run again",
)
SAME_QUOTE = ProblemCode(
    "N917",
    Level.NOTE,
    "nothing has changed since this was quoted as {key}",
    why="the same quote is one row in the register, and what is there of its files stays as it is",
    concern=Concern.FORM,
)
NOT_WON = ProblemCode(
    "E922",
    Level.ERROR,
    "the quote is not won",
    needs="a quote that the register says is won; {key} is {state}",
    why="variations, job cards and gas orders belong to work that will be done",
    do="run: kerfledger decide {number} won",
)
KEPT_ESTIMATE_CHANGED = ProblemCode(
    "E923",
    Level.ERROR,
    "the kept estimate no longer gives the price that was quoted",
    needs="the estimate as it was when {key} was quoted, {quoted} before tax; it gives {now}",
    why="work on a quote goes by what the customer accepted",
    do="undo what was typed in it since; a new price is a new revision",
)
OWN_FIGURE_LOST = ProblemCode(
    "W924",
    Level.WARNING,
    "a line with a figure of your own is not in the list any more",
    needs="a line with the same mark and thickness; {line} had {own}",
    why="what you typed is kept with its line, and this one is gone or was renamed",
    do="type the figure on the line that takes its place, if there is one",
    concern=Concern.MISSING,
)
OWN_MINUTES_OF_OTHER_QUANTITY = ProblemCode(
    "W925",
    Level.WARNING,
    "your own minutes were typed for another quantity",
    needs="minutes for {now} pieces; yours were for {before}",
    why="minutes are those of the whole line",
    do="look at My minutes of {line} in the new estimate",
    concern=Concern.TAKEN,
)
RATE_LEFT_BEHIND = ProblemCode(
    "N926",
    Level.NOTE,
    "a figure that you typed in the old estimate is not taken over",
    needs="",
    why="the new estimate takes rates and prices from the shop book; only what was typed on the lines is kept",
    do="for this job alone type it again: {what}; else in the shop book",
    concern=Concern.TAKEN,
)
LAST_PRICE = ProblemCode(
    "N927",
    Level.NOTE,
    "marks of this list were quoted to this customer before ({count})",
    why="what they were offered at stands beside your own price on the sheet of lines",
    concern=Concern.FORM,
)
NOTHING_WON = ProblemCode(
    "E928",
    Level.ERROR,
    "the register holds no won work that counts",
    needs="a quote that is won and not done, of the fuel and by the day that were asked",
    why="gas is ordered for work that will be done",
    do="say what was won, as: kerfledger decide Q-0031 won --work-from 2026-11-16; or name cut lists",
)
WON_ON_OTHER_FUEL = ProblemCode(
    "W929",
    Level.WARNING,
    "{key} is won and burns {fuel}; it is not in this plan",
    needs="a plan of its own, beside this one on {planned}",
    why="a rack is planned fuel by fuel; the oxygen of this work is missing here too",
    do="run the same command with --fuel '{fuel}'",
    concern=Concern.MISSING,
)
WON_WITHOUT_DAY = ProblemCode(
    "W930",
    Level.WARNING,
    "{key} is won and has no day on which work begins; it is not in this plan",
    needs="a day in the column 'Work from'",
    why="the plan was asked up to a day",
    do="type the day, or leave --until away",
    concern=Concern.MISSING,
)
NO_CUSTOMER = ProblemCode(
    "W944",
    Level.WARNING,
    "the quote does not say who it is for",
    needs="the customer's name",
    do='run again with --customer "NAME", or type Customer and the name above the headings of the list',
    concern=Concern.FORM,
)
NO_JOB_TITLE = ProblemCode(
    "W945",
    Level.WARNING,
    "the quote does not say for which job it is",
    needs="a title of the job",
    do="type Job and its title above the headings of the list, and run 'estimate' again",
    concern=Concern.FORM,
)
DATED_AS_WRITTEN = ProblemCode(
    "N946",
    Level.NOTE,
    "the job has no date, so the quote is dated {date}, the day it was written",
    why="it is valid for so many days from its date; the prices were worked without one",
    do="to date it otherwise, run again with --date",
    concern=Concern.FORM,
)
SETUP_STANDS = ProblemCode(
    "N947",
    Level.NOTE,
    "set-up and work for the whole job stand on the page as a line of {amount}, beside lines of {lines}",
    why="a customer may ask what it is; spread, it is in the prices of the lines and seen by you alone",
    do="to spread it, type yes in {cell} of {book}, beside '{heading}', and run 'estimate' again",
    concern=Concern.FORM,
)
NO_SHOP_NAME = ProblemCode(
    "W948",
    Level.WARNING,
    "the quote does not say who it is from",
    needs="your shop's name",
    why="the customer's page begins with it",
    do="type it in {cell} of {book}, beside '{heading}', and run 'quote' again with --force --shop and the path of "
    "that book",
    concern=Concern.FORM,
)
QUOTE_FILE_DIFFERS = ProblemCode(
    "E949",
    Level.ERROR,
    "the file of {key} is there already, and differs from what would be written now",
    needs="the file as it was written when it was quoted",
    why="the prices are those of {key}; what a customer may have in hand is not replaced unasked",
    do="to send it anew under the same number, run again with --revision {free}; to replace a page that never went "
    "out, with --force",
)
VALIDITY_PAST = ProblemCode(
    "W950",
    Level.WARNING,
    "the quote is dated {date} and valid until {until}, which is past",
    needs="a validity that reaches beyond today, {today}",
    why="it takes the date of the list, and so its prices; a customer cannot accept it any more",
    do="to date it today, run again with --date {today}; for the prices of that day too, run 'estimate' with it first",
    concern=Concern.TAKEN,
)
