/** The two kinds of number that all kernels are written with: to the plain build both are `number`, to the compiled ones they are not. */
declare type i32 = number;
declare type f64 = number;
declare type bool = boolean;
