// SPDX-License-Identifier: MIT OR Apache-2.0
//
// The C interface for C++17: results by value, memory that frees itself, columns of vectors and of structs. Everything
// is inline over the functions of tenths.h, whose comments hold; no call takes memory that the C call does not take.
//
//     tenths::result<double> speed = tenths::surface_speed(tenths::metric, 60.0, 1200.0);
//     if (speed) use(*speed); else report(speed.message());
//     double sure = speed.value(); // throws tenths::error if there is no answer
//
//     auto fit = tenths::make(tenths_make_fit, "H7/g6", "25 mm").value();
//     use(fit->least_clearance);   // cleared at the end of its scope
#ifndef TENTHS_HPP
#define TENTHS_HPP

#include "tenths.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <memory>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#if defined(__cpp_exceptions)
#include <stdexcept>
#endif

namespace tenths {

inline constexpr tenths_units inch = TENTHS_INCH;
inline constexpr tenths_units metric = TENTHS_METRIC;

/// The message of this thread's last failure in the C interface.
inline std::string last_message() {
    std::string message(tenths_error_message(nullptr, 0), '\0');
    tenths_error_message(message.data(), message.size() + 1);
    return message;
}

#if defined(__cpp_exceptions)
/// What `result::value` throws: the message of the call, and its status.
class error : public std::runtime_error {
public:
    error(tenths_status status, const std::string &message) : std::runtime_error(message), status_(status) {}
    tenths_status status() const noexcept { return status_; }

private:
    tenths_status status_;
};
#endif

/// A value, or the status of a call that has none.
///
/// Without exceptions, test it (`if (result)`) and read `*result`; `value()` throws `tenths::error` instead, and ends the
/// program where exceptions are turned off.
template <class T>
class [[nodiscard]] result {
public:
    result(T value) noexcept : value_(std::move(value)), status_(TENTHS_OK) {}
    static result failed(tenths_status status) noexcept { return result(status, false); }
    /// A failure of which the C interface knows nothing.
    static result failed_here(tenths_status status) noexcept { return result(status, true); }

    bool has_value() const noexcept { return status_ == TENTHS_OK; }
    explicit operator bool() const noexcept { return has_value(); }
    tenths_status status() const noexcept { return status_; }

    /// Why there is no value; ask before another call of this thread fails.
    std::string message() const {
        return is_own_ ? std::string(tenths_status_text(status_)) : last_message();
    }

    const T &operator*() const &noexcept { return value_; }
    T &operator*() &noexcept { return value_; }
    T &&operator*() &&noexcept { return std::move(value_); }
    const T *operator->() const noexcept { return &value_; }

    const T &value() const & {
        demand();
        return value_;
    }
    T &&value() && {
        demand();
        return std::move(value_);
    }
    T value_or(T other) && { return has_value() ? std::move(value_) : std::move(other); }
    T value_or(T other) const & { return has_value() ? value_ : std::move(other); }

private:
    result(tenths_status status, bool is_own) noexcept : value_(), status_(status), is_own_(is_own) {}

    void demand() const {
        if (has_value()) return;
#if defined(__cpp_exceptions)
        throw error(status_, message());
#else
        std::abort();
#endif
    }

    T value_;
    tenths_status status_;
    bool is_own_ = false;
};

/// What frees the memory of an object or handle of the C interface; nothing for a struct that owns none.
template <class T>
struct release {
    void operator()(T *) const noexcept {}
};

/// A handle, such as `tenths::handle<tenths_stack>`.
template <class T>
using handle = std::unique_ptr<T, release<T>>;

/// A text of the C interface.
class text {
public:
    text() noexcept = default;
    explicit text(char *owned) noexcept : owned_(owned) {}
    const char *c_str() const noexcept { return owned_ ? owned_.get() : ""; }
    operator std::string_view() const noexcept { return c_str(); }

private:
    struct freed {
        void operator()(char *owned) const noexcept { tenths_text_free(owned); }
    };
    std::unique_ptr<char, freed> owned_;
};

/// A struct of the C interface by value, its size set; what it owns is freed with it.
template <class T>
class object {
public:
    object() noexcept : held_() { held_.struct_size = sizeof(T); }
    object(object &&other) noexcept : held_(std::exchange(other.held_, object().held_)) {}
    object &operator=(object &&other) noexcept {
        std::swap(held_, other.held_);
        return *this;
    }
    ~object() { release<T>()(&held_); }

    T &operator*() noexcept { return held_; }
    const T &operator*() const noexcept { return held_; }
    T *operator->() noexcept { return &held_; }
    const T *operator->() const noexcept { return &held_; }
    /// For a function that takes a pointer.
    T *get() noexcept { return &held_; }
    const T *get() const noexcept { return &held_; }

private:
    T held_;
};

namespace detail {

// What a call writes through its last parameter, and what a C++ caller gets of it: a number, an object, a handle, a text.
template <class T, class = void>
struct written {
    T plain{};
    T *place() noexcept { return &plain; }
    using type = T;
    T take() noexcept { return plain; }
};

template <class T>
struct written<T, std::void_t<decltype(std::declval<T>().struct_size)>> {
    object<T> held;
    T *place() noexcept { return held.get(); }
    using type = object<T>;
    object<T> take() noexcept { return std::move(held); }
};

template <class T>
struct written<T *, void> {
    T *made = nullptr;
    T **place() noexcept { return &made; }
    using type = handle<T>;
    handle<T> take() noexcept { return handle<T>(made); }
};

template <>
struct written<char *, void> {
    char *made = nullptr;
    char **place() noexcept { return &made; }
    using type = text;
    text take() noexcept { return text(made); }
};

template <class... Parameters>
using last = std::remove_pointer_t<std::tuple_element_t<sizeof...(Parameters) - 1, std::tuple<Parameters...>>>;

} // namespace detail

/// Calls a function of the C interface with all its arguments but the last, and gives what that would have been set to: a
/// number, an `object`, a `handle` or a `text`. Functions whose name ends in `_init` give options with their defaults.
template <class... Parameters, class... Arguments>
result<typename detail::written<detail::last<Parameters...>>::type> make(tenths_status (*call)(Parameters...),
                                                                          Arguments &&...arguments) {
    detail::written<detail::last<Parameters...>> out;
    const tenths_status status = call(std::forward<Arguments>(arguments)..., out.place());
    using made = result<typename detail::written<detail::last<Parameters...>>::type>;
    return status == TENTHS_OK ? made(out.take()) : made::failed(status);
}

/// The numbers of one argument in a batch: it looks at them and does not own them.
class column {
public:
    /// The default of the argument in every row.
    column() noexcept = default;
    /// The same number in every row.
    column(double number) noexcept : number_(number), kind_(kind::one) {}
    /// An array, vector or span of double.
    template <class Numbers, class = decltype(std::data(std::declval<const Numbers &>()))>
    column(const Numbers &numbers) noexcept : column(std::data(numbers), std::size(numbers)) {}
    column(const double *first, std::size_t rows) noexcept
        : first_(first), rows_(rows), stride_(sizeof(double)), kind_(kind::many) {}
    /// A member of each struct of an array: `column(moves.data(), moves.size(), &move::length)`.
    template <class Struct>
    column(const Struct *structs, std::size_t rows, double Struct::*member) noexcept
        : first_(rows == 0 ? nullptr : &(structs->*member)), rows_(rows), stride_(sizeof(Struct)), kind_(kind::many) {}

    bool has(std::size_t rows) const noexcept { return kind_ != kind::many || rows_ == rows; }
    std::size_t rows() const noexcept { return kind_ == kind::many ? rows_ : one_row; }
    tenths_column raw() const noexcept {
        static constexpr double none = 0.0;
        switch (kind_) {
        case kind::many: return {first_ ? first_ : &none, static_cast<std::ptrdiff_t>(stride_)};
        case kind::one: return {&number_, 0};
        default: return {nullptr, 0};
        }
    }

    static constexpr std::size_t one_row = std::numeric_limits<std::size_t>::max();

private:
    enum class kind { preset, one, many };
    const double *first_ = nullptr;
    std::size_t rows_ = 0, stride_ = 0;
    double number_ = 0.0;
    kind kind_ = kind::preset;
};

/// Where the numbers of one result of a batch go.
class result_column {
public:
    /// A result that is not wanted.
    result_column() noexcept = default;
    template <class Numbers, class = decltype(std::data(std::declval<Numbers &>()))>
    result_column(Numbers &numbers) noexcept : result_column(std::data(numbers), std::size(numbers)) {}
    result_column(double *first, std::size_t rows) noexcept : first_(first), rows_(rows), stride_(sizeof(double)) {}
    template <class Struct>
    result_column(Struct *structs, std::size_t rows, double Struct::*member) noexcept
        : first_(rows == 0 ? nullptr : &(structs->*member)), rows_(rows), stride_(sizeof(Struct)) {}

    bool has(std::size_t rows) const noexcept { return first_ == nullptr || rows_ == rows; }
    tenths_result_column raw() const noexcept { return {first_, static_cast<std::ptrdiff_t>(stride_)}; }

private:
    double *first_ = nullptr;
    std::size_t rows_ = 0, stride_ = 0;
};

/// `tenths_formula_batch` over columns, which must be alike in length; gives the number of rows that have no answer. Every
/// row of `statuses` says why, if it is not null.
template <std::size_t Arguments, std::size_t Results>
result<std::size_t> batch(const char *formula, tenths_units units, const column (&arguments)[Arguments],
                          const result_column (&results)[Results], tenths_status *statuses = nullptr,
                          const tenths_watch *watch = nullptr) {
    std::size_t rows = column::one_row, refused = 0;
    for (const column &argument : arguments)
        if (argument.rows() != column::one_row) rows = argument.rows();
    if (rows == column::one_row) rows = 1;
    std::array<tenths_column, Arguments> inputs;
    std::array<tenths_result_column, Results> outputs;
    bool alike = true;
    for (std::size_t k = 0; k < Arguments; k++) {
        alike = alike && arguments[k].has(rows);
        inputs[k] = arguments[k].raw();
    }
    for (std::size_t k = 0; k < Results; k++) {
        alike = alike && results[k].has(rows);
        outputs[k] = results[k].raw();
    }
    if (!alike) return result<std::size_t>::failed_here(TENTHS_BAD_COUNT);
    const tenths_status status = tenths_formula_batch(formula, units, rows, inputs.data(), Arguments, outputs.data(),
                                                      Results, statuses, nullptr, &refused, watch);
    return status == TENTHS_OK ? result<std::size_t>(refused) : result<std::size_t>::failed(status);
}

} // namespace tenths

#include "tenths_calls.hpp"

#endif
