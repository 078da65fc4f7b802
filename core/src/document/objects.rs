//! Objects, choices and tagged objects of a document, each written once.

/// Objects of the document: the struct, its decoder and its table of fields, from one list.
///
/// `where` bounds the numbers of a field, `=` gives its default. A rule speaks of several fields, stands at the
/// first of them and gives a message where it is broken. Objects that are written too derive `Serialize`.
macro_rules! objects {
    ($($(#[doc = $doc:literal])* $(#[derive($($derived:ident),*)])? $name:ident {
        $($(#[doc = $field_doc:literal])* $field:ident : $type:ty
            $(where $bound:ident)? $(= $default:expr)?),* $(,)?
    } $(=> rules { $($first:ident $(, $other:ident)* => $rule:path;)* })?)*) => {$(
        $(#[doc = $doc])*
        #[derive(Clone, PartialEq, Debug $($(, $derived)*)?)]
        pub struct $name { $($(#[doc = $field_doc])* pub $field: $type),* }

        impl $name {
            /// The table of its fields.
            pub const OBJECT: &'static Object = &Object {
                name: stringify!($name),
                doc: concat!($($doc),*),
                fields: &[$(DocumentField {
                    name: stringify!($field),
                    doc: concat!($($field_doc),*),
                    required: objects!(@required $type $(, $default)?),
                    shape: <$type as Decode>::SHAPE,
                    bound: objects!(@bound $($bound)?),
                    default: objects!(@written $type $(, $default)?),
                }),*],
            };

            /// The place of a field in the table: names known to the compiler are found sooner than in a list.
            fn place(name: &str) -> Option<usize> {
                let mut places = 0..;
                $(
                    let place = places.next();
                    if name == stringify!($field) {
                        return place;
                    }
                )*
                None
            }

            pub(crate) fn decode_fields(
                node: &Node<'_>,
                beside: $crate::document::decode::Beside<'_>,
                at: Place<'_>,
                context: &mut Context,
            ) -> Option<Self> {
                const COUNT: usize = $name::OBJECT.fields.len();
                let mut found = [None; COUNT];
                let faults = context.faults();
                sort_fields(node, $name::OBJECT, $name::place, beside, at, context, &mut found)?;
                let [$($field),*] = found;
                $(let $field: Option<$type> = decode_field(
                    $field,
                    stringify!($field),
                    objects!(@bound $($bound)?),
                    objects!(@value $($default)?),
                    at,
                    context,
                );)*
                $($(
                    if let (Some($first), $(Some($other)),*) = (&$first, $(&$other),*)
                        && let Some(message) = $rule($first, $($other),*)
                    {
                        context.fault(FaultKind::Conflict, at.field(stringify!($first)), || message);
                    }
                )*)?
                (faults == context.faults()).then_some(())?;
                Some(Self { $($field: $field?),* })
            }
        }

        impl Decode for $name {
            const SHAPE: &'static Shape = &Shape::Object($name::OBJECT);
            fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
                $name::decode_fields(node, $crate::document::decode::Beside::Nothing, at, context)
            }
        }
    )*};
    (@required $type:ty) => { !<$type as Decode>::MAY_BE_ABSENT };
    (@required $type:ty, $default:expr) => { false };
    (@bound) => { Bound::Anything };
    (@bound $bound:ident) => { Bound::$bound };
    (@written $type:ty) => { None };
    (@written $type:ty, $default:expr) => { Some(|| <$type as Decode>::written(&$default)) };
    (@value) => { None };
    (@value $default:expr) => { Some($default) };
}

/// A choice of names.
macro_rules! choices {
    ($($(#[doc = $doc:literal])* $name:ident { $($(#[doc = $own_doc:literal])* $variant:ident = $text:literal),* $(,)? })*) => {$(
        $(#[doc = $doc])*
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, serde::Serialize)]
        pub enum $name { $($(#[doc = $own_doc])* #[serde(rename = $text)] $variant),* }

        impl $name {
            const CHOICES: &'static [ChoiceName] = &[$(ChoiceName { name: $text, doc: concat!($($own_doc),*) }),*];

            /// The name in a document.
            pub const fn name(self) -> &'static str {
                Self::CHOICES[self as usize].name
            }
        }

        impl Decode for $name {
            const SHAPE: &'static Shape = &Shape::Choice(Self::CHOICES);
            fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
                const ALL: &[$name] = &[$($name::$variant),*];
                let names = Self::CHOICES.iter().map(|choice| choice.name);
                decode_name(node, names, at, context).map(|index| ALL[index])
            }
            fn written(&self) -> serde_json::Value {
                self.name().into()
            }
        }
    )*};
}

/// One of several objects, told apart by a field. `beside` names the object whose fields all of them have as well, which
/// is read on its own.
macro_rules! tagged {
    ($(#[doc = $doc:literal])* $name:ident by $tag:literal $(beside $shared:ident)? { $($(#[doc = $own_doc:literal])* $variant:ident = $text:literal),* $(,)? }) => {
        $(#[doc = $doc])*
        #[derive(Clone, PartialEq, Debug)]
        pub enum $name { $($(#[doc = $own_doc])* $variant($variant)),* }

        impl $name {
            const VARIANTS: &'static [(&'static str, &'static Object)] = &[$(($text, $variant::OBJECT)),*];
            const SHARED: &'static [DocumentField] = tagged!(@shared $($shared)?);

            /// The name in a document.
            pub const fn name(&self) -> &'static str {
                match self { $($name::$variant(_) => $text),* }
            }
        }

        impl Decode for $name {
            const SHAPE: &'static Shape = &Shape::Tagged($tag, Self::VARIANTS, Self::SHARED);
            fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
                let names = Self::VARIANTS.iter().map(|variant| variant.0);
                let index = decode_tag(node, $tag, names, at, context)?;
                let beside = $crate::document::decode::Beside::Tag($tag, Self::SHARED);
                match Self::VARIANTS[index].0 {
                    $($text => $variant::decode_fields(node, beside, at, context).map($name::$variant),)*
                    _ => None,
                }
            }
        }
    };
    (@shared) => { &[] };
    (@shared $shared:ident) => { $shared::OBJECT.fields };
}

pub(crate) use {choices, objects, tagged};
