// The order matters: what stands later wins. Every page takes its sheets from here.
import '@mantine/core/styles.css';
import './tokens.css';
import './base.css';
