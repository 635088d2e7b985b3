in vec3 position;
void main() { leave_out_the_cut(position); }
