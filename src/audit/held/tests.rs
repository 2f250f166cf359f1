use super::*;

#[test]
fn sets_are_all_there_and_in_order() {
    assert_eq!(sets(4, 2).len(), 6);
    assert_eq!(sets(10, 3).len(), 120);
    assert_eq!(sets(3, 2), [vec![0, 1], vec![0, 2], vec![1, 2]]);
    assert_eq!(sets(2, 3), Vec::<Vec<usize>>::new());
}
