/* First articles through the C header: a demo plan, readings as CSV. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <stdlib.h>
#include <string.h>

static char plan[20000];
static size_t length;

static const char good[] =
    "number,measured,unit\n1,1.76,in\n2,\"go entered, no-go refused\",\n3,.433,in\n4,12.9,mm\n5,.201,in\n6,.4,in\n";

static void read_plan(void) {
    FILE *file = fopen("examples/plans/jig_rest_pin.json", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    length = fread(plan, 1, sizeof plan, file);
    fclose(file);
}

static void verdicts(void) {
    tenths_first_article got;
    got.struct_size = sizeof got;
    CHECK(tenths_make_first_article(plan, length, good, sizeof good - 1, NULL, NULL, NULL, 0, &got) == TENTHS_OK);
    CHECK(got.accepted == 1 && got.verdicts_count == 6 && got.missing_count == 0 && got.pieces == 1);
    CHECK(got.verdicts[0].number == 1 && got.verdicts[0].has_verdict && got.verdicts[0].verdict == 0);
    /* 1.760 in is at the limit: 0.010 in from the nominal size, all of the tolerance. */
    CHECK(got.verdicts[0].deviation == INT64_C(254000000) && got.verdicts[0].share == 1.0);
    CHECK(strcmp(got.verdicts[1].gauged, "go entered, no-go refused") == 0 && !got.verdicts[1].has_measured);
    tenths_first_article_clear(&got);
    /* Without readings: the form to fill in. */
    CHECK(tenths_make_first_article(plan, length, NULL, 0, NULL, NULL, NULL, 2, &got) == TENTHS_OK);
    CHECK(got.accepted == 0 && got.verdicts_count == 12 && got.missing_count == 6 && !got.verdicts[0].has_verdict);
    tenths_first_article_clear(&got);
}

static void machine(void) {
    static const char csv[] = "Feature;Actual\n1;44,7\n1;44,8\n9;1,0\n";
    tenths_first_article got;
    got.struct_size = sizeof got;
    CHECK(tenths_make_first_article(plan, length, csv, sizeof csv - 1,
                                    "units=mm; decimal=comma; number=Feature; measured=Actual", "ISO 14253-1", "0.001 mm", 0,
                                    &got) == TENTHS_OK);
    CHECK(got.pieces == 2 && got.verdicts[0].verdict == 0 && got.verdicts[1].verdict == 1);
    CHECK(got.surplus_count == 1 && got.surplus[0] == 9 && got.accepted == 0);
    tenths_first_article_clear(&got);
}

static void texts(void) {
    char *text = NULL;
    CHECK(tenths_first_article_text(plan, length, good, sizeof good - 1, NULL, NULL, NULL, 0, "markdown", &text) == TENTHS_OK);
    CHECK(text != NULL && strstr(text, "Result: **ACCEPTED**.") != NULL);
    tenths_text_free(text);
    CHECK(tenths_first_article_text(plan, length, good, sizeof good - 1, NULL, NULL, NULL, 0, "html", &text) == TENTHS_OK);
    CHECK(text != NULL && strstr(text, "<strong>ACCEPTED</strong>") != NULL && strstr(text, "@page") != NULL);
    tenths_text_free(text);
    CHECK(tenths_first_article_text(plan, length, good, sizeof good - 1, NULL, NULL, NULL, 0, "csv", &text) == TENTHS_OK);
    CHECK(text != NULL && strstr(text, "\"go entered, no-go refused\"") != NULL);
    tenths_text_free(text);
    CHECK(tenths_first_article_text(plan, length, NULL, 0, NULL, NULL, NULL, 0, "json", &text) == TENTHS_OK);
    CHECK(text != NULL && strstr(text, "\"accepted\":false") != NULL);
    tenths_text_free(text);
    CHECK(tenths_first_article_text(plan, length, NULL, 0, NULL, NULL, NULL, 0, "xml", &text) == TENTHS_BAD_CHOICE);
    CHECK(text == NULL);
}

static void faults(void) {
    static const char bad[] = "number,measured\n1,12\n2,NaN\n";
    tenths_first_article got;
    char message[400];
    got.struct_size = sizeof got;
    CHECK(tenths_make_first_article(plan, length, bad, sizeof bad - 1, "units=mm", NULL, NULL, 0, &got) == TENTHS_CSV_FAULTS);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "row 3, column `measured`: `NaN` is not a reading") != NULL);
    CHECK(tenths_make_first_article(plan, length, "\xff\xfe", 2, NULL, NULL, NULL, 0, &got) == TENTHS_BAD_TEXT);
    CHECK(tenths_make_first_article(plan, length, good, sizeof good - 1, NULL, "4:1", NULL, 0, &got) == TENTHS_NO_FIRST_ARTICLE);
    CHECK(tenths_make_first_article(plan, length, good, sizeof good - 1, NULL, "fair", NULL, 0, &got) == TENTHS_NO_DECISION);
    CHECK(tenths_make_first_article("{}", 2, good, sizeof good - 1, NULL, NULL, NULL, 0, &got) == TENTHS_PLAN_FAULTS);
    CHECK(tenths_make_first_article(NULL, 0, good, sizeof good - 1, NULL, NULL, NULL, 0, &got) == TENTHS_NULL_POINTER);
    CHECK(strcmp(tenths_status_text(TENTHS_CSV_FAULTS), "unknown status") != 0);
    CHECK(strcmp(tenths_status_text(TENTHS_NO_FIRST_ARTICLE), "unknown status") != 0);
}

int main(void) {
    read_plan();
    verdicts();
    machine();
    texts();
    faults();
    return finish();
}
