/** Every demonstration account has this password; printed at start, and refused wherever the data are not invented. */
export const DEMONSTRATION_PASSWORD = 'tide-table-24';
