/** What labels carry: the square ones hold a link, the long ones a number. */
export const CODE_FORMATS = ["qr_code", "data_matrix", "code_128", "code_39"] as const;
