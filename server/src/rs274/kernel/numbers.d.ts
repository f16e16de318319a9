/** The two kinds of number that the kernel is written with: to the plain build both are `number`, to the compiled one they are not. */
declare type i32 = number;
declare type f64 = number;
declare type bool = boolean;
