/* Faults for any export, from the types of its parameters: the generated faults.c has the tables.
 *
 * A row of sound parameters is looked for first, one that succeeds. Then each parameter in turn takes every odd
 * value of its type, the others staying as they are, and the status and the results are judged. */
#ifndef FAULTS_H
#define FAULTS_H
#include "handles.h"
#include "rows.h"
#include <stddef.h>
#include <stdlib.h>

enum kind {
    UNITS, WHOLE, NUMBER, COUNT, LENGTH, CALLBACK, CONTEXT, OWNED,
    /* These lead to memory of the program's. */
    TEXT, EMPTY, BYTES, BUFFER, TEXT_OUT, NUMBERS, RESULT, INDICES, COUNTS, PLACES, SIZED, COLUMNS, ROWS, HANDLE, HANDLES, HANDLE_OUT
};

/* A kind of handle. */
struct handle {
    void *(*make)(void);
    void (*drop)(void *);
};

/* A parameter: its kind, the size of what it points to, that of the first version of a struct, and its fields:
 * d for a number, p for a pointer to numbers, w for a word of 64 bits, i for one of 32, t for text, h for a pointer
 * that may be null, and anything else. `optional` is 1 where it may be null, of a number infinite, and 2 where any text
 * will do. */
struct parameter {
    enum kind kind;
    size_t size, first;
    const char *fields;
    int writable, optional;
    const struct handle *handle;
    /* Frees what the fields of a struct that a call has filled lead to. */
    void (*clear)(void *);
};

union value {
    double number;
    int64_t whole;
    size_t size;
    void *pointer;
    tenths_function function;
};

/* An argument of the call that a documentation shows, if it is a number, a constant, a text or null. */
struct shown {
    int is_given;
    double number;
    int64_t whole;
    const char *text;
};

struct export {
    const char *name;
    tenths_status (*call)(const union value *v);
    int has_status;
    size_t count;
    const struct parameter *parameters;
    /* Texts that its documentation quotes, ended by NULL. */
    const char *const *quoted;
    /* The arguments that its documentation shows; null for none. */
    const struct shown *shown;
};

/* A formula, with the names of itself, its arguments and its results, and a metric row of sound arguments. */
struct theme {
    const char *name;
    size_t arguments, results, count;
    const char *const *words;
    const double *row;
};

struct document {
    const char *text;
    size_t length;
};

/* What sound texts are drawn from; the generated program sets them. */
static const struct theme *themes;
static size_t theme_count;
static const struct document *documents;
static size_t document_count;

/* What a status has to be, beside one of those in the header. */
enum { ANY = -1, AN_ERROR = -2, PAST_THE_LAST = -3 };
enum { ELEMENTS = 64, MOST_PARAMETERS = 16, LONG_TEXT = 100000, ODDS = 7 };

static inline uint64_t draw(uint64_t seed, uint64_t place, uint64_t below) {
    uint64_t x = seed * UINT64_C(0x9e3779b97f4a7c15) + (place + 1) * UINT64_C(0xbf58476d1ce4e5b9);
    x = (x ^ x >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    x = (x ^ x >> 27) * UINT64_C(0x94d049bb133111eb);
    return (x ^ x >> 31) % below;
}

static inline const struct theme *theme_of(uint64_t seed) { return &themes[draw(seed, 99, theme_count)]; }

static inline double number(uint64_t seed, uint64_t place) {
    static const double likely[] = {0.01, 0.1, 0.25, 0.3, 0.9, 1.0, 2.0, 5.0, 20.0, 40.0, 100.0};
    return likely[draw(seed, place, sizeof likely / sizeof *likely)];
}

static inline void *copy(const void *bytes, size_t length) {
    void *own = malloc(length ? length : 1);
    if (own == NULL) abort();
    memcpy(own, bytes, length);
    return own;
}

static inline char *filled(size_t length, char with) {
    char *own = (char *)malloc(length ? length : 1);
    if (own == NULL) abort();
    memset(own, with, length);
    return own;
}

/* Text of its own length, without a NUL where a length goes with it, so that no byte more may be read. */
static inline int make_text(const struct export *e, const struct parameter *p, uint64_t seed, size_t place, long odd, int has_length,
                            union value *v, size_t *length) {
    static const char *const common[] = {"12 +0.018/0 mm", "1.420 \xc2\xb1.005 in", "1.425 in", "12 mm", "-0.05 mm",
                                         "M8-6g", "25 H7", "25 H7/g6", "FN2", "RAA 0.8"};
    const struct theme *theme = theme_of(seed);
    const char *text;
    size_t k = draw(seed, place, theme->count + sizeof common / sizeof *common), quoted;
    *length = 0;
    v->pointer = NULL;
    if (odd == 0) return p->optional == 1 ? ANY : (int)TENTHS_NULL_POINTER;
    if (odd == 1) return *length = 3, v->pointer = copy("\xff\xfe", 3), (int)TENTHS_BAD_TEXT;
    if (odd == 2) return *length = 3, v->pointer = copy("a\xc3", 3), (int)TENTHS_BAD_TEXT;
    if (odd == 3) {
        v->pointer = filled(LONG_TEXT, '1');
        ((char *)v->pointer)[LONG_TEXT - 1] = '\0';
        return *length = LONG_TEXT - 1, p->optional == 2 ? (int)ANY : (int)AN_ERROR;
    }
    if (odd == 4) return v->pointer = copy("", 1), p->optional ? (int)ANY : (int)AN_ERROR;
    if (odd > 4) return PAST_THE_LAST;
    if (p->optional == 1 && draw(seed, place + 70, 2)) return 0;
    if (has_length && draw(seed, place + 50, 2)) {
        const struct document *document = &documents[draw(seed, place + 60, document_count)];
        return v->pointer = copy(document->text, *length = document->length), 0;
    }
    if (p->optional == 1 && draw(seed, place + 50, 2)) return 0;
    text = k < theme->count ? theme->words[k] : common[k - theme->count];
    if (draw(seed, place + 70, 3) == 0) text = theme->name;
    for (quoted = 0; e->quoted[quoted] != NULL;) quoted++;
    if (quoted > 0 && draw(seed, place + 90, 3) > 0) text = e->quoted[draw(seed, place + 95, quoted)];
    *length = strlen(text);
    return v->pointer = copy(text, *length + !has_length), 0;
}

/* The value of a field of a struct; an odd one where `odd` is not negative. */
static inline void make_field(char field, uint64_t seed, size_t place, long odd, double *numbers, void *to) {
    static const double odd_numbers[ODDS] = {NAN, INFINITY, -INFINITY, 0.0, -1.0, 1e308, 5e-324};
    static const int64_t odd_words[] = {-1, INT64_MIN, 0};
    static const int32_t odd_wholes[] = {-1, INT32_MIN, 8};
    static const char *const odd_texts[] = {NULL, "\xff\xfe", ""};
    const struct theme *theme = theme_of(seed);
    double x = number(seed, place), *pointer = draw(seed, place, 2) ? numbers : NULL;
    int64_t word = 1 + (int64_t)draw(seed, place, 8);
    int32_t whole = (int32_t)draw(seed, place, 8);
    const char *text = theme->words[draw(seed, place, theme->count)];
    if (odd >= 0) x = odd_numbers[odd % ODDS], word = odd_words[odd % 3], whole = odd_wholes[odd % 3];
    if (odd >= 0) text = odd_texts[odd % 3], pointer = NULL;
    switch (field) {
    case 'd': memcpy(to, &x, sizeof x); break;
    case 'w': memcpy(to, &word, sizeof word); break;
    case 'i': memcpy(to, &whole, sizeof whole); break;
    case 't': memcpy(to, &text, sizeof text); break;
    case 'p': memcpy(to, &pointer, sizeof pointer); break;
    default: memset(to, 0, sizeof(void *));
    }
}

/* A struct that begins with its size, or an array of such. The first of them gets the odd values. */
static inline int make_struct(const struct parameter *p, uint64_t seed, size_t place, long odd, size_t count, double *numbers,
                              union value *v) {
    const size_t sizes[] = {0, 1, 7, p->first - 1, p->first, p->size, p->size + 64};
    const long last = sizeof sizes / sizeof *sizes;
    size_t size = p->size, k, element, odd_field = SIZE_MAX;
    v->pointer = NULL;
    if (odd == 0) return p->optional ? (int)ANY : (int)TENTHS_NULL_POINTER;
    if (odd > last) {
        /* Numbers alone have their odd values elsewhere. */
        if (p->writable || strspn(p->fields, "d") == strlen(p->fields)) return PAST_THE_LAST;
        odd_field = (size_t)(odd - last - 1) / ODDS;
        if (odd_field >= strlen(p->fields)) return PAST_THE_LAST;
    } else if (odd > 0) {
        size = sizes[odd - 1];
    }
    if (size < p->first) count = 1;
    v->pointer = filled((size < sizeof size ? sizeof size : size) * count, 0x55);
    for (element = 0; element < count; element++) {
        char *at = (char *)v->pointer + element * size;
        size_t offset = sizeof size;
        memcpy(at, &size, sizeof size);
        for (k = 0; !p->writable && p->fields[k] != '\0'; k++) {
            size_t width = p->fields[k] == 'i' ? sizeof(int32_t) : sizeof(double);
            long of_field = element == 0 && k == odd_field ? (odd - last - 1) % ODDS : -1;
            offset = (offset + width - 1) / width * width;
            if (offset + width > size) break;
            make_field(p->fields[k], seed, place + 20 * (k + 1) + 7 * element, of_field, numbers, at + offset);
            offset += width;
        }
    }
    return size < p->first ? (int)TENTHS_BAD_STRUCT_SIZE : odd > last ? (int)ANY : 0;
}

/* Bytes that are read back, and such that are not. */
static inline int make_bytes(long odd, union value *v, size_t *length) {
    *length = 0;
    v->pointer = NULL;
    if (odd == 0) return TENTHS_NULL_POINTER;
    if (odd > 3) return PAST_THE_LAST;
    if (odd == 1) return v->pointer = filled(0, 0), AN_ERROR;
    if (odd == 2) return v->pointer = filled(*length = LONG_TEXT, 0x55), AN_ERROR;
    v->pointer = sound_bytes(length);
    if (odd == 3) ((char *)v->pointer)[*length / 2] ^= 1;
    return odd == 3 ? (int)AN_ERROR : 0;
}

/* A handle, an array of the same one, or a place for a new one. */
static inline int make_handle(const struct parameter *p, long odd, union value *v) {
    void *null = NULL, *own;
    size_t k;
    v->pointer = NULL;
    if (odd == 0) return p->optional ? (int)ANY : (int)TENTHS_NULL_POINTER;
    if (odd > (p->kind == HANDLES)) return PAST_THE_LAST;
    if (p->kind == HANDLE) return v->pointer = p->handle->make(), 0;
    v->pointer = filled(ELEMENTS * sizeof(void *), 0x55);
    if (p->kind == HANDLE_OUT) return 0;
    own = odd == 1 ? null : p->handle->make();
    for (k = 0; k < ELEMENTS; k++) ((void **)v->pointer)[k] = own;
    return odd == 1 ? (int)TENTHS_NULL_POINTER : 0;
}

/* An array of structs of pointers and words, such as the columns of a batch; they share `numbers`. */
static inline int make_columns(const struct parameter *p, uint64_t seed, long odd, union value *v, double *numbers) {
    static const ptrdiff_t words[] = {0, -8, 4, 1, PTRDIFF_MAX, PTRDIFF_MIN};
    const long last = sizeof words / sizeof *words + 2;
    size_t fields = strlen(p->fields), k, j;
    v->pointer = NULL;
    if (odd == 0) return p->optional ? (int)ANY : (int)TENTHS_NULL_POINTER;
    if (odd > last) return PAST_THE_LAST;
    v->pointer = filled(ELEMENTS * p->size, 0);
    for (k = 0; k < ELEMENTS; k++) {
        for (j = 0; j < fields; j++) {
            char *at = (char *)v->pointer + k * p->size + j * sizeof(void *);
            double *first = numbers + ELEMENTS / 2 + draw(seed, k, 8);
            ptrdiff_t word = odd > 0 && odd < last - 1 ? words[odd - 1] : 8;
            if (odd == last - 1) first = NULL;
            if (odd == last) first = (double *)(void *)((char *)first + 1);
            if (p->fields[j] == 'p') memcpy(at, &first, sizeof first); else memcpy(at, &word, sizeof word);
        }
    }
    return odd == last || (odd > 2 && odd < last - 1) ? (int)AN_ERROR : odd < 0 ? 0 : (int)ANY;
}

/* An array of structs of whole numbers, small ones where they are to be sound. */
static inline int make_rows(const struct parameter *p, uint64_t seed, size_t place, long odd, union value *v) {
    static const int64_t wholes[] = {-1, 0, 7, INT32_MAX, INT32_MIN, INT64_MAX, INT64_MIN};
    size_t fields = strlen(p->fields), k, j;
    v->pointer = NULL;
    if (odd == 0) return p->optional ? (int)ANY : (int)TENTHS_NULL_POINTER;
    if (odd > (long)(sizeof wholes / sizeof *wholes)) return PAST_THE_LAST;
    v->pointer = filled(ELEMENTS * p->size, 0);
    for (k = 0; k < ELEMENTS; k++) {
        char *at = (char *)v->pointer + k * p->size;
        size_t offset = 0;
        for (j = 0; j < fields; j++) {
            int64_t word = odd > 0 ? wholes[odd - 1] : (int64_t)draw(seed, 1000 * (place + 1) + 10 * k + j, 2);
            int32_t half = (int32_t)word;
            size_t size = p->fields[j] == 'w' ? sizeof word : sizeof half;
            offset = (offset + size - 1) / size * size;
            if (size == sizeof word) memcpy(at + offset, &word, size); else memcpy(at + offset, &half, size);
            offset += size;
        }
    }
    return odd > 0 ? (int)ANY : 0;
}

static inline int make_array(const struct parameter *p, uint64_t seed, size_t place, long odd, union value *v) {
    static const double odds[] = {NAN, INFINITY, -INFINITY, 0.0, -0.0, -1.0, 1e308, -1e308, 5e-324};
    const struct theme *theme = theme_of(seed);
    size_t k;
    v->pointer = NULL;
    /* What the call writes by the way may be null; results and arguments may not. */
    if (odd == 0) return p->kind == PLACES || p->optional ? (int)ANY : (int)TENTHS_NULL_POINTER;
    if (odd < 0 && p->optional && draw(seed, place + 50, 2)) return 0;
    if (odd > (p->kind == NUMBERS ? (long)(sizeof odds / sizeof *odds) : 0)) return PAST_THE_LAST;
    /* Where a call has two counts, it may write their product. */
    v->pointer = filled((p->kind == RESULT ? ELEMENTS : 1) * ELEMENTS * p->size, 0x55);
    for (k = 0; p->kind == INDICES && k < ELEMENTS; k++) ((size_t *)v->pointer)[k] = k;
    for (k = 0; p->kind == COUNTS && k < ELEMENTS; k++) ((uint64_t *)v->pointer)[k] = k + 1;
    for (k = 0; (p->kind == NUMBERS || p->kind == RESULT) && k < ELEMENTS; k++) {
        ((double *)v->pointer)[k] = odd > 0 ? odds[odd - 1] : p->kind == RESULT ? 3.0 : number(seed, place + 20 * (k + 1));
    }
    if (odd < 0 && p->kind == NUMBERS && draw(seed, place + 80, 2)) {
        memcpy(v->pointer, theme->row, theme->arguments * sizeof *theme->row);
    }
    return odd > 0 ? (int)ANY : 0;
}

static inline int make_count(enum kind kind, uint64_t seed, size_t place, long odd, union value *v, size_t length) {
    static const size_t odds[] = {SIZE_MAX, SIZE_MAX / 2 + 1, 0, 1, 2, 3, 7};
    const struct theme *theme = theme_of(seed);
    const size_t likely[] = {theme->arguments, theme->results, 1, 2};
    if (odd >= (long)(sizeof odds / sizeof *odds)) return PAST_THE_LAST;
    v->size = kind == LENGTH ? length : likely[draw(seed, place, sizeof likely / sizeof *likely)];
    if (odd < 0) return 0;
    v->size = kind == LENGTH && odd > 1 && odds[odd] > length ? length / 2 : odds[odd];
    if (odd > 1) return ANY;
    return kind == LENGTH ? (int)TENTHS_BAD_LENGTH : (int)AN_ERROR;
}

static inline int make_number(const struct parameter *p, uint64_t seed, size_t place, long odd, union value *v) {
    static const double odds[] = {NAN, INFINITY, -INFINITY, 0.0, -0.0, -1.0, 1e308, -1e308, 5e-324};
    static const int32_t wholes[] = {-1, 2, 7, INT32_MAX, INT32_MIN};
    if (p->kind == NUMBER) {
        if (odd >= (long)(sizeof odds / sizeof *odds)) return PAST_THE_LAST;
        v->number = odd < 0 ? number(seed, place) : odds[odd];
        return odd < 0 ? 0 : odd < (p->optional ? 1 : 3) ? (int)AN_ERROR : (int)ANY;
    }
    if (odd >= (long)(sizeof wholes / sizeof *wholes)) return PAST_THE_LAST;
    v->whole = odd < 0 ? (int32_t)draw(seed, place, 2) : wholes[odd];
    return odd < 0 ? 0 : p->kind == UNITS ? (int)TENTHS_BAD_UNITS : (int)ANY;
}

/* The value of one parameter: sound where `odd` is negative, or the odd one of that number. Tells what must come. */
/* Gives a parameter the value that the documentation shows, where it shows one of its kind. */
static inline int make_shown(const struct parameter *p, const struct shown *shown, int has_length, union value *v, size_t *length) {
    if (!shown->is_given) return 0;
    switch (p->kind) {
    case NUMBER: v->number = shown->number; return 1;
    case UNITS: case WHOLE: v->whole = shown->whole; return 1;
    case TEXT:
        *length = shown->text == NULL ? 0 : strlen(shown->text);
        v->pointer = shown->text == NULL ? NULL : copy(shown->text, *length + !has_length);
        return 1;
    case NUMBERS: case SIZED: v->pointer = NULL; return 1;
    default: return 0;
    }
}

static inline int make(const struct export *e, uint64_t seed, size_t place, long odd, union value *v, size_t *length,
                       double *numbers) {
    const struct parameter *p = &e->parameters[place];
    const int is_last = place + 1 == e->count, is_shown = e->shown != NULL && draw(seed, 900, 2);
    if (odd < 0 && is_shown && make_shown(p, &e->shown[place], !is_last && p[1].kind == LENGTH, v, length)) return 0;
    /* In place of a null one, a struct of random fields need not be sound. */
    if (p->kind == SIZED && odd >= 0 && is_shown && e->shown[place].is_given) {
        int told = make_struct(p, seed, place, odd, 1, numbers, v);
        return told == 0 ? (int)ANY : told;
    }
    switch (p->kind) {
    case TEXT: return make_text(e, p, seed, place, odd, !is_last && p[1].kind == LENGTH, v, length);
    case BYTES: return make_bytes(odd, v, length);
    case SIZED: return make_struct(p, seed, place, odd, !is_last && !p->writable && p[1].kind == COUNT ? ELEMENTS : 1, numbers, v);
    case COLUMNS: return make_columns(p, seed, odd, v, numbers);
    case NUMBERS: case RESULT: case INDICES: case COUNTS: case PLACES: return make_array(p, seed, place, odd, v);
    case ROWS: return make_rows(p, seed, place, odd, v);
    case COUNT: return make_count(p->kind, seed, place, odd, v, *length);
    case LENGTH: {
        int told = make_count(p->kind, seed, place, odd, v, *length);
        /* The length of a text that is null is not looked at. */
        return told > 0 && told != PAST_THE_LAST && v[-1].pointer == NULL ? (int)ANY : told;
    }
    case HANDLE: case HANDLES: case HANDLE_OUT: return make_handle(p, odd, v);
    case BUFFER:
        v->pointer = odd == 0 || (p->optional && draw(seed, place, 2)) ? NULL : filled(ELEMENTS, 0x55);
        return odd > 0 ? (int)PAST_THE_LAST : (int)ANY;
    case CALLBACK:
        v->function = odd == 0 ? NULL : sound_function;
        return odd > 0 ? (int)PAST_THE_LAST : odd == 0 ? (int)TENTHS_NULL_POINTER : 0;
    /* A struct of zeros. */
    case EMPTY:
        if (odd == 0) return v->pointer = NULL, ANY;
        v->pointer = filled(p->size, 0);
        memcpy(v->pointer, &p->size, sizeof p->size);
        return odd > 0 ? (int)PAST_THE_LAST : 0;
    case CONTEXT: case OWNED: return v->pointer = NULL, odd > 0 ? (int)PAST_THE_LAST : (int)ANY;
    case TEXT_OUT:
        v->pointer = NULL;
        if (odd == 0) return p->optional ? (int)ANY : (int)TENTHS_NULL_POINTER;
        v->pointer = filled(sizeof(char *), 0x55);
        return odd > 0 ? (int)PAST_THE_LAST : 0;
    default: return make_number(p, seed, place, odd, v);
    }
}

/* Gives back what `make` took. */
static inline void release(const struct parameter *p, const union value *v) {
    if (p->kind < TEXT || v->pointer == NULL) return;
    if (p->kind == HANDLE) p->handle->drop(v->pointer);
    if (p->kind == HANDLES) p->handle->drop(*(void **)v->pointer);
    if (p->kind != HANDLE) free(v->pointer);
}

/* Whether the results are as the status says: none of them on an error. Frees a text or a handle that came. */
static inline int sound_results(const struct parameter *p, const union value *v, tenths_status status) {
    if (p->kind < TEXT || v->pointer == NULL) return 1;
    if (p->kind == RESULT) {
        double x = *(double *)v->pointer;
        /* A depth that no vibration bounds is infinite. */
        return status == TENTHS_OK ? !isnan(x) : isnan(x);
    }
    if (p->kind == TEXT_OUT) {
        char *text = *(char **)v->pointer;
        if (status != TENTHS_OK) return text == NULL;
        if (text == NULL) return 0;
        if (p->writable) tenths_text_free(text);
    }
    if (p->kind == HANDLE_OUT) {
        void *made = *(void **)v->pointer;
        if ((status == TENTHS_OK) != (made != NULL)) return 0;
        p->handle->drop(made);
    }
    if (p->kind == SIZED && p->clear != NULL && *(size_t *)v->pointer >= p->first) p->clear(v->pointer);
    if (p->kind == SIZED && p->writable && status != TENTHS_OK && strspn(p->fields, "d") == strlen(p->fields)) {
        size_t size = *(size_t *)v->pointer, k;
        if (size < p->first) return 1;
        for (k = 1; k < p->first / sizeof(double); k++) {
            if (!isnan(((double *)v->pointer)[k])) return 0;
        }
    }
    return 1;
}

/* One call of the row of `seed`, with the odd value of one place. Tells the status, or PAST_THE_LAST. */
static inline tenths_status attempt(const struct export *e, uint64_t seed, size_t odd_place, long odd, int judge) {
    union value v[MOST_PARAMETERS];
    double numbers[ELEMENTS * 2];
    size_t k, length = 0;
    int expected = ANY, holds = 1, nothing = 0;
    tenths_status status;
    for (k = 0; k < ELEMENTS * 2; k++) numbers[k] = number(seed, 200 + k);
    for (k = 0; k < e->count; k++) {
        int told;
        memset(&v[k], 0, sizeof v[k]);
        told = make(e, seed, k, k == odd_place ? odd : -1, &v[k], &length, numbers);
        if (k == odd_place && odd >= 0) expected = told;
    }
    status = expected == PAST_THE_LAST ? PAST_THE_LAST : e->call(v);
    if (status != PAST_THE_LAST && e->has_status) {
        holds = strcmp(tenths_status_text(status), "unknown status") != 0 && status != TENTHS_INTERNAL;
        if (expected == AN_ERROR) holds = holds && status != TENTHS_OK;
        if (expected >= 0) holds = holds && status == expected;
        /* Of no numbers at all none is written. */
        for (k = 0; k < e->count; k++) nothing |= e->parameters[k].kind == COUNT && v[k].size == 0;
        for (k = 0; k < e->count; k++) {
            if (nothing && e->parameters[k].kind == RESULT) continue;
            holds &= sound_results(&e->parameters[k], &v[k], status);
        }
    }
    for (k = 0; k < e->count; k++) release(&e->parameters[k], &v[k]);
    if (holds && judge) passed++;
    if (!holds) {
        char message[200];
        tenths_error_message(message, sizeof message);
        printf("%s: odd value %ld of parameter %d: status %d, not %d, or its results do not suit it; last message: %s\n",
               e->name, odd, (int)odd_place, (int)status, expected, message);
        fflush(stdout);
        failed++;
    }
    return status;
}

/* What chance hardly ever calls rightly, each called by a program of its own. */
static inline int is_hard_to_meet(const char *name) {
    static const char *const names[] = {
        "tenths_chatter_from_response", /* rises in frequency, with parts of one sign: chatter.c */
        "tenths_make_attribute_zone",   /* shares of 0 and 1 beside the zones: gauge_studies.c */
        "tenths_limit_to_machine",      /* a cut among all formulas, and a machine: shop.c */
    };
    size_t k;
    for (k = 0; k < sizeof names / sizeof *names; k++)
        if (strcmp(name, names[k]) == 0) return 1;
    return 0;
}

/* Every odd value of every parameter about a few sound rows. */
static inline void faults(const struct export *e) {
    enum { SOUND_ROWS = 3 };
    const uint64_t last = is_hard_to_meet(e->name) ? 2000 : 100000;
    uint64_t seed;
    int found = 0;
    size_t place;
    for (seed = 1; found < SOUND_ROWS && seed < last && failed < 50; seed++) {
        if (attempt(e, seed, MOST_PARAMETERS, -1, 0) != TENTHS_OK && e->has_status) continue;
        found++;
        for (place = 0; place < e->count; place++) {
            long odd = 0;
            while (attempt(e, seed, place, odd, 1) != PAST_THE_LAST) odd++;
        }
        if (e->count == 0) passed++;
    }
    if (is_hard_to_meet(e->name)) return;
    if (found < SOUND_ROWS && failed < 50) {
        printf("%s: no parameters were found with which it succeeds\n", e->name);
        failed++;
    }
}
#endif
