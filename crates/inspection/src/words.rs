//! Enumerations as tables: each variant with the word that files have for it, and with its text for people.

macro_rules! words {
    ($(#[$meta:meta])* $name:ident {
        $($(#[$variant_meta:meta])* $variant:ident = $word:literal, $text:literal;)+
    }) => {
        $crate::words::words! { $(#[$meta])* $name { $($(#[$variant_meta])* $variant = $word;)+ } }

        impl $name {
            /// As printed for people.
            pub fn text(self) -> &'static str {
                match self { $(Self::$variant => $text),+ }
            }
        }
    };
    ($(#[$meta:meta])* $name:ident { $($(#[$variant_meta:meta])* $variant:ident = $word:literal;)+ }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name {
            $($(#[$variant_meta])* $variant,)+
        }

        impl $name {
            /// Every word.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// As written in files and JSON.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }
    };
}
pub(crate) use words;
