/** As many characters as the server asks of a new password (NIST SP 800-63B: length counts). */
export const PASSWORD_LEAST = 12;
