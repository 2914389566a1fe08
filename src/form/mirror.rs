//! The two ways between a form and the core type it stands for. A form is a type of its own, so that
//! the file can stay while the program changes; one table makes the form and both ways, and a
//! field or variant that the table forgets does not compile.

use crate::catalogue::{FieldFinding, PathStep};

/// A form that stands for a core type. Not the standard `From` and `TryFrom`, because lists, pairs
/// and what may be left out of forms are forms too.
pub(crate) trait FormOf<T>: Sized {
    /// The value as it is written.
    fn write(value: &T) -> Self;

    /// The value that was meant, or the field that holds none.
    fn read(self) -> Result<T, FieldFinding>;
}

/// Values that are written as they are.
macro_rules! as_they_are {
    ($($name:ty),* $(,)?) => {
        $(
            impl FormOf<$name> for $name {
                fn write(value: &$name) -> Self {
                    value.clone()
                }

                fn read(self) -> Result<$name, FieldFinding> {
                    Ok(self)
                }
            }
        )*
    };
}

as_they_are!(String, bool, u32, u64, usize, f64);

impl<T, F: FormOf<T>> FormOf<Option<T>> for Option<F> {
    fn write(value: &Option<T>) -> Self {
        value.as_ref().map(F::write)
    }

    fn read(self) -> Result<Option<T>, FieldFinding> {
        self.map(F::read).transpose()
    }
}

impl<T, F: FormOf<T>> FormOf<Box<T>> for Box<F> {
    fn write(value: &Box<T>) -> Self {
        Self::new(F::write(value))
    }

    fn read(self) -> Result<Box<T>, FieldFinding> {
        (*self).read().map(Box::new)
    }
}

impl<T, F: FormOf<T>> FormOf<Vec<T>> for Vec<F> {
    fn write(value: &Vec<T>) -> Self {
        value.iter().map(F::write).collect()
    }

    fn read(self) -> Result<Vec<T>, FieldFinding> {
        let items = self.into_iter().enumerate();
        items.map(|(n, item)| item.read().map_err(|found| found.under(PathStep::Index(n)))).collect()
    }
}

impl<A, B, F: FormOf<A>, G: FormOf<B>> FormOf<(A, B)> for (F, G) {
    fn write((first, second): &(A, B)) -> Self {
        (F::write(first), G::write(second))
    }

    fn read(self) -> Result<(A, B), FieldFinding> {
        let first = self.0.read().map_err(|found| found.under(PathStep::Index(0)))?;
        let second = self.1.read().map_err(|found| found.under(PathStep::Index(1)))?;
        Ok((first, second))
    }
}

impl<A, B, C, F: FormOf<A>, G: FormOf<B>, H: FormOf<C>> FormOf<(A, B, C)> for (F, G, H) {
    fn write((first, second, third): &(A, B, C)) -> Self {
        (F::write(first), G::write(second), H::write(third))
    }

    fn read(self) -> Result<(A, B, C), FieldFinding> {
        let (first, second) = (self.0, self.1).read()?;
        let third = self.2.read().map_err(|found| found.under(PathStep::Index(2)))?;
        Ok((first, second, third))
    }
}

/// Makes a form from a table, with both ways to the core type of the same fields or variants.
/// A variant that holds one value names it: `Parked(tag: String)`.
macro_rules! form {
    (
        $(#[$meta:meta])*
        $vis:vis struct $form:ident of $core:ident {
            $($(#[$field_meta:meta])* $field:ident: $ty:ty,)*
        }
    ) => {
        #[derive(serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        $(#[$meta])*
        $vis struct $form {
            $($(#[$field_meta])* $field: $ty,)*
        }

        impl $crate::form::mirror::FormOf<$core> for $form {
            fn write(value: &$core) -> Self {
                let $core { $($field,)* } = value;
                Self { $($field: $crate::form::mirror::FormOf::write($field),)* }
            }

            fn read(self) -> Result<$core, $crate::catalogue::FieldFinding> {
                let Self { $($field,)* } = self;
                Ok($core { $($field: $crate::form::mirror::read_field(stringify!($field), $field)?,)* })
            }
        }
    };
    (
        $(#[$meta:meta])*
        $vis:vis enum $form:ident of $core:ident {
            $(
                $(#[$variant_meta:meta])*
                $variant:ident
                $({ $($(#[$field_meta:meta])* $field:ident: $ty:ty,)* })?
                $(($one:ident: $one_ty:ty))?,
            )*
        }
    ) => {
        #[derive(serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        $(#[$meta])*
        $vis enum $form {
            $(
                $(#[$variant_meta])*
                $variant $({ $($(#[$field_meta])* $field: $ty,)* })? $(($one_ty))?,
            )*
        }

        impl $crate::form::mirror::FormOf<$core> for $form {
            fn write(value: &$core) -> Self {
                match value {
                    $(
                        $core::$variant $({ $($field,)* })? $(($one))? => Self::$variant
                            $({ $($field: $crate::form::mirror::FormOf::write($field),)* })?
                            $(($crate::form::mirror::FormOf::write($one)))?,
                    )*
                }
            }

            fn read(self) -> Result<$core, $crate::catalogue::FieldFinding> {
                Ok(match self {
                    $(
                        Self::$variant $({ $($field,)* })? $(($one))? => $core::$variant
                            $({ $($field: $crate::form::mirror::read_field(stringify!($field), $field)?,)* })?
                            $(($crate::form::mirror::FormOf::read($one)?))?,
                    )*
                })
            }
        }
    };
}

pub(super) use form;

/// Reads a field; what is wrong in it is found under its name.
pub(super) fn read_field<T, F: FormOf<T>>(name: &'static str, form: F) -> Result<T, FieldFinding> {
    form.read().map_err(|found| found.under(PathStep::Field(name)))
}
